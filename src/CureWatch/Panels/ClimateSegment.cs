using System.Collections.Immutable;

namespace CureWatch.Panels;

/// <summary>A stretch of time in which a surface's exposure runs straight from one value to another.</summary>
/// <param name="Start">Its start.</param>
/// <param name="End">Its end, after the start.</param>
/// <param name="AtStart">Exposure at the start.</param>
/// <param name="AtEnd">Exposure at the end.</param>
/// <param name="Unseen">What nobody measured in between; null where readings are close enough for either clock.</param>
/// <param name="Alternatives">What it may have been instead, where a probe is missing among others; empty where none is.</param>
/// <param name="IsUnconfirmed">True since the newest readings: what the next ones say is still open.</param>
/// <remarks>The default is an empty stretch at the beginning of time.</remarks>
public readonly record struct ClimateSegment(
    DateTimeOffset Start,
    DateTimeOffset End,
    Exposure AtStart,
    Exposure AtEnd,
    Unseen? Unseen,
    ImmutableArray<Alternative> Alternatives,
    bool IsUnconfirmed = false)
{
    /// <summary>By how much the surface is apart from others of its kind at the segment's end; null where it is not.</summary>
    public Apart? Apart { get; init; }

    /// <summary>Whether it is only a piece of a stretch between two readings, which goes on after it.</summary>
    public bool GoesOn { get; init; }

    /// <summary>A stretch that nobody measured in: straight between what is known on either side, or held.</summary>
    /// <param name="start">Its start.</param>
    /// <param name="end">Its end.</param>
    /// <param name="before">The exposure when somebody measured last; null where nobody had.</param>
    /// <param name="after">The exposure when somebody measured again; null where nobody has. One of them there is.</param>
    /// <returns>A gap that earns the slow bound nothing.</returns>
    public static ClimateSegment Unmeasured(DateTimeOffset start, DateTimeOffset end, Exposure? before, Exposure? after)
    {
        Exposure first = before ?? after!.Value, last = after ?? first;
        Bracket air = before is null
            ? new Bracket(end, last.AirKelvins, last.VapourPressurePa, null, last.AirKelvins, last.VapourPressurePa)
            : new Bracket(start, first.AirKelvins, first.VapourPressurePa, after is null ? null : end, last.AirKelvins, last.VapourPressurePa);
        return Plain(start, end, first, last, new Unseen([air], [], first, IsGapForEvaporation: true, IsGapForCure: true, IsElsewhere: true));
    }

    /// <summary>How long it lasts [h].</summary>
    public double Hours => (End - Start).TotalHours;

    /// <summary>The part of the segment between two instants.</summary>
    /// <param name="from">Not before the segment's start.</param>
    /// <param name="to">Not after the segment's end, and after <paramref name="from"/>.</param>
    /// <returns>A segment of its own.</returns>
    public ClimateSegment Between(DateTimeOffset from, DateTimeOffset to)
    {
        if (from == Start && to == End)
        {
            return this;
        }

        double first = ShareAt(from), last = ShareAt(to);
        return this with
        {
            Start = from,
            End = to,
            AtStart = ExposureAt(from),
            AtEnd = ExposureAt(to),
            Alternatives = Alternatives.IsEmpty ? Alternatives : AlternativesBetween(first, last),
            Apart = to == End ? Apart : null,
        };
    }

    /// <summary>The exposure at an instant.</summary>
    /// <param name="instant">The instant, inside the segment or at one of its ends.</param>
    /// <returns>The exposure.</returns>
    public Exposure ExposureAt(DateTimeOffset instant) => AtStart.Towards(AtEnd, ShareAt(instant));

    /// <summary>The same with a panel that is nowhere warmer than the air: what it would be without heat of its own.</summary>
    /// <remarks>Straight only where the panel does not cross the air on the way (<see cref="CrossesAirAt"/>).</remarks>
    public ClimateSegment Unlit() => this with
    {
        AtStart = AtStart.Unlit(),
        AtEnd = AtEnd.Unlit(),
        Alternatives = Alternatives.IsEmpty ? Alternatives : [.. Alternatives.Select(a => a with { AtStart = a.AtStart.Unlit(), AtEnd = a.AtEnd.Unlit() })],
    };

    /// <summary>When the panel passes the temperature of the air, inside the segment; null where it does not.</summary>
    public DateTimeOffset? CrossesAirAt
    {
        get
        {
            double first = AtStart.PanelKelvins - AtStart.AirKelvins, last = AtEnd.PanelKelvins - AtEnd.AirKelvins;
            DateTimeOffset at = first * last < 0 ? Start + ((End - Start) * (first / (first - last))) : Start;
            return at > Start && at < End ? at : null;
        }
    }

    /// <summary>A stretch about which there is no second opinion.</summary>
    /// <param name="start">Its start.</param>
    /// <param name="end">Its end, after the start.</param>
    /// <param name="atStart">Exposure at the start.</param>
    /// <param name="atEnd">Exposure at the end.</param>
    /// <param name="unseen">What nobody measured in between.</param>
    /// <returns>The segment.</returns>
    public static ClimateSegment Plain(
        DateTimeOffset start, DateTimeOffset end, Exposure atStart, Exposure atEnd, Unseen? unseen = null) =>
        new(start, end, atStart, atEnd, unseen, []);

    private ImmutableArray<Alternative> AlternativesBetween(double first, double last) => [.. Alternatives.Select(a => a.Between(first, last))];

    private double ShareAt(DateTimeOffset instant) => (instant - Start) / (End - Start);
}

/// <summary>What a climate may have been instead.</summary>
/// <param name="AtStart">Exposure at the start.</param>
/// <param name="AtEnd">Exposure at the end.</param>
public sealed record Alternative(Exposure AtStart, Exposure AtEnd)
{
    /// <summary>Whether it only may have been, since a probe stood still: it grows as long as that lasts, and says nothing of what comes.</summary>
    public bool IsPast { get; init; }

    /// <summary>Whether it is of a panel that nobody waits for any more: what comes of that is told by what is unseen, which knows how fast it may have got there.</summary>
    public bool IsUnheard { get; init; }

    /// <summary>Whether it comes of probes that contradict each other: then it may have been so for as long as anybody knows.</summary>
    public bool IsContradicted { get; init; }

    /// <summary>The same with a panel that is measured.</summary>
    /// <param name="startKelvins">Panel temperature at the start [K].</param>
    /// <param name="endKelvins">Panel temperature at the end [K].</param>
    /// <returns>The alternative.</returns>
    public Alternative WithPanel(double startKelvins, double endKelvins) =>
        this with { AtStart = AtStart with { PanelKelvins = startKelvins }, AtEnd = AtEnd with { PanelKelvins = endKelvins } };

    /// <summary>The same with a surface that is warmer by some.</summary>
    /// <param name="startK">By how much at the start [K].</param>
    /// <param name="endK">By how much at the end [K].</param>
    /// <returns>The alternative.</returns>
    public Alternative Warmer(double startK, double endK) => this with { AtStart = AtStart.Warmer(startK), AtEnd = AtEnd.Warmer(endK) };

    /// <summary>A part of it.</summary>
    /// <param name="from">Where the part starts [1], 0 to 1.</param>
    /// <param name="to">Where the part ends [1], 0 to 1.</param>
    /// <returns>The alternative over the part.</returns>
    public Alternative Between(double from, double to) =>
        this with { AtStart = AtStart.Towards(AtEnd, from), AtEnd = AtStart.Towards(AtEnd, to) };
}
