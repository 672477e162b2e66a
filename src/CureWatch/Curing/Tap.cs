namespace CureWatch.Curing;

/// <summary>What a person reports.</summary>
/// <param name="Id">Makes a retry harmless; null where the reporter gave none.</param>
/// <param name="At">When it was done; the end of the wipe-on for <see cref="Did.Applied"/>.</param>
/// <param name="ReportedAt">When it was told, not before <paramref name="At"/>.</param>
/// <param name="Surface">The surface; null for every surface of the job.</param>
/// <param name="Did">What was done.</param>
/// <param name="Layer">The layer, from 1; null where nobody said.</param>
/// <param name="Section">The section, from 1; null where nobody said.</param>
/// <param name="StartedAt">The first wipe of an application; null where nobody said.</param>
/// <param name="PanelC">A panel temperature read by hand [°C].</param>
/// <param name="Found">What an inspection found.</param>
/// <param name="How">How a coat was reworked.</param>
/// <param name="ToBay">Where the car went: a bay, <c>store</c> or <c>outside</c>.</param>
/// <param name="By">Who reports.</param>
/// <param name="Note">In the reporter's words.</param>
/// <param name="Corrects">The id of the tap this one replaces.</param>
/// <param name="PromisedAt">The pick-up time that was told to the customer, with <see cref="Did.Told"/>.</param>
/// <param name="Batch">The batch of the product, with <see cref="Did.Applied"/>: empty where nobody knows it, null where nobody said.</param>
public sealed record Tap(
    string? Id,
    DateTimeOffset At,
    DateTimeOffset ReportedAt,
    string? Surface,
    Did Did,
    int? Layer = null,
    int? Section = null,
    DateTimeOffset? StartedAt = null,
    double? PanelC = null,
    Found? Found = null,
    How? How = null,
    string? ToBay = null,
    string? By = null,
    string? Note = null,
    string? Corrects = null,
    DateTimeOffset? PromisedAt = null,
    string? Batch = null)
{
    /// <summary>How far instants may be apart that a form took over: pages know milliseconds.</summary>
    private static readonly TimeSpan Rounding = TimeSpan.FromMilliseconds(1);

    /// <summary>Whether it says the same as another of everything that runs a clock; batch, note and who told it run none.</summary>
    /// <param name="other">The other.</param>
    /// <returns>True where it does.</returns>
    public bool RunsTheClocksOf(Tap other) =>
        IsAbout(At, other.At) && IsAbout(StartedAt ?? At, other.StartedAt ?? other.At) && (StartedAt is null) == (other.StartedAt is null)
        && this == other with
        {
            Id = Id,
            At = At,
            ReportedAt = ReportedAt,
            StartedAt = StartedAt,
            By = By,
            Note = Note,
            Corrects = Corrects,
            Batch = Batch,
        };

    private static bool IsAbout(DateTimeOffset a, DateTimeOffset b) => (a - b).Duration() <= Rounding;
}

/// <summary>What a person did.</summary>
public enum Did
{
    /// <summary>A coat was wiped on.</summary>
    Applied,

    /// <summary>The coat was seen to have flashed.</summary>
    Flashed,

    /// <summary>The coat was levelled.</summary>
    Levelled,

    /// <summary>Water touched the surface.</summary>
    Wetted,

    /// <summary>The surface was dried.</summary>
    Dried,

    /// <summary>The surface was looked at.</summary>
    Inspected,

    /// <summary>The coat was worked again.</summary>
    Reworked,

    /// <summary>A lamp was switched on.</summary>
    LampOn,

    /// <summary>A lamp was switched off.</summary>
    LampOff,

    /// <summary>The panel's temperature was read by hand.</summary>
    Measured,

    /// <summary>The car, or the surface, was moved.</summary>
    Moved,

    /// <summary>The surface was washed.</summary>
    Washed,

    /// <summary>The surface was polished.</summary>
    Polished,

    /// <summary>The panel was wiped down before coating.</summary>
    PanelWiped,

    /// <summary>The customer was told a pick-up time.</summary>
    Told,

    /// <summary>What another tap told was not done after all; <see cref="Tap.Corrects"/> says which.</summary>
    Withdrawn,
}

/// <summary>What an inspection found; only <see cref="Clear"/> lifts a hold.</summary>
public enum Found
{
    /// <summary>Nothing wrong.</summary>
    Clear,

    /// <summary>A high spot.</summary>
    HighSpot,

    /// <summary>A streak.</summary>
    Streak,

    /// <summary>A water mark.</summary>
    WaterMark,

    /// <summary>Dust in the coat.</summary>
    Dust,
}

/// <summary>How a coat was reworked.</summary>
public enum How
{
    /// <summary>Wetted again with product, to be levelled on a new evaporation clock.</summary>
    ReWet,

    /// <summary>Wiped in time.</summary>
    Wiped,

    /// <summary>Polished off: the coat has ended.</summary>
    PolishedOff,
}
