using CureWatch.Handover;
using CureWatch.Service.Charts;
using CureWatch.Words;

namespace CureWatch.Service.Board;

/// <summary>What a screen on the wall shows, to be read from across the bay.</summary>
/// <param name="Shop">The shop's name.</param>
/// <param name="Zone">Its time zone, for the page's own clock.</param>
/// <param name="Now">The instant.</param>
/// <param name="Part">What people are about: the screen has another face at lock-up and in the morning.</param>
/// <param name="LocksUp">When the shop closes for the night; null where it never does.</param>
/// <param name="Troubles">What keeps the program itself from its work.</param>
/// <param name="Bays">The bays.</param>
public sealed record WallView(
    string Shop, string Zone, Moment Now, DayPart Part, Moment? LocksUp, IReadOnlyList<TroubleView> Troubles, IReadOnlyList<WallBayView> Bays)
{
    /// <summary>The cars in no bay, on the screen of one bay those that were in it last, the most urgent first, and how many more there are than are shown; at lock-up all that have to stay.</summary>
    public (IReadOnlyList<WallCarView> Cars, int More) Elsewhere { get; init; } = ([], 0);
}

/// <summary>A bay on the wall.</summary>
/// <param name="Bay">The bay's id.</param>
/// <param name="Air">Its air.</param>
/// <param name="Chart">Its climate, to be drawn, and where it is heading.</param>
/// <param name="Zone">The shop's time zone, for the hours under it.</param>
/// <param name="Hours">The same in numbers.</param>
/// <param name="Warnings">What stands against it and the cars in it, the most urgent first, with what to do.</param>
/// <param name="Others">What else stands, by name alone.</param>
/// <param name="MoreWarnings">How many more stand than are shown.</param>
/// <param name="Cars">The cars in it, the most urgent first; at lock-up all that have to stay.</param>
/// <param name="MoreCars">How many more are in it than are shown.</param>
/// <param name="Night">What to know of its night, at lock-up and in the morning; null at other times, or where there is nothing.</param>
public sealed record WallBayView(
    string Bay,
    AirView Air,
    Chart Chart,
    TimeZoneInfo Zone,
    IReadOnlyList<HourView> Hours,
    IReadOnlyList<WarningView> Warnings,
    IReadOnlyList<WarningView> Others,
    int MoreWarnings,
    IReadOnlyList<WallCarView> Cars,
    int MoreCars,
    NightView? Night);

/// <summary>A car on the wall.</summary>
/// <param name="Job">The job's id.</param>
/// <param name="Car">The car, in the shop's words.</param>
/// <param name="Next">What is next on it; null where nothing is left but to wait.</param>
/// <param name="Until">What the countdown runs to; null where nobody can say a time.</param>
/// <param name="Caution">What to take care of first; null where nothing. The board and the phone have all of it.</param>
/// <param name="Leaves">Whether it may leave, and when.</param>
/// <param name="Stays">At lock-up: whether it has to stay where it is, until when, and what has to be done on it before; else null.</param>
public sealed record WallCarView(string Job, string Car, NextView? Next, Moment? Until, string? Caution, HandoverView Leaves, StaysView? Stays)
{
    /// <summary>How urgent it is.</summary>
    public Tone Tone => Next?.Tone ?? (Leaves.ForPeople.Count > 0 ? Tone.Soon : Tone.Fine);
}

/// <summary>What is to be known of a car before the shop is locked.</summary>
/// <param name="HasToStay">Whether it may not be moved.</param>
/// <param name="Text">That, and until when, in a sentence.</param>
/// <param name="Before">What cannot wait until the shop opens again.</param>
public sealed record StaysView(bool HasToStay, Sentence Text, IReadOnlyList<Sentence> Before);

/// <summary>A row of the table beside a chart.</summary>
/// <param name="At">The instant.</param>
/// <param name="Air">The air.</param>
/// <param name="DewPoint">Its dew point.</param>
/// <param name="Panel">The coldest panel.</param>
public sealed record HourView(Moment At, DegreesView? Air, DegreesView? DewPoint, DegreesView? Panel);

/// <summary>A temperature in a table: as it was, or as it is expected.</summary>
/// <param name="LikelyC">The temperature [°C].</param>
/// <param name="Band">What it seldom leaves [°C]; null where it was measured.</param>
public sealed record DegreesView(double LikelyC, (double LowC, double HighC)? Band);
