using System.Collections.Immutable;
using CureWatch.Readings;

namespace CureWatch.Panels;

/// <summary>What one panel probe tells over a stretch, and how far that may be off because it stood still [K].</summary>
/// <param name="Likely">At the start and the end.</param>
/// <param name="Low">The coldest it may have been.</param>
/// <param name="High">The warmest.</param>
internal readonly record struct PanelReach((double Start, double End) Likely, (double Start, double End) Low, (double Start, double End) High)
{
    /// <summary>What is known, and not off.</summary>
    public static PanelReach Exactly((double Start, double End) kelvins) => new(kelvins, kelvins, kelvins);

    /// <summary>
    /// The reading as it is; where it stood still beside panels that did not, by as much from them as it was when it began to, and where that is only
    /// suspected either may be; where there are none, anything it may have become since.
    /// </summary>
    public static PanelReach Of(Source panel, ImmutableArray<Source> all, Bracket around, DateTimeOffset from, DateTimeOffset to)
    {
        (double, double) likely = (around.KelvinsAt(from), around.KelvinsAt(to));
        if (panel.Stills.IsEmpty || panel.Stills.Over(Quantity.Temperature, from, to) is not { } still)
        {
            return Exactly(likely);
        }

        DateTimeOffset since = still.From.At;
        Source[] sound =
        [
            .. all.Where(p => p != panel && !p.IsLentAt(from) && p.StoodStillSince(from, to) is null && p.Around(since, since) is not null
                && p.Around(from, to) is { } other && !p.IsGapForCure((other.To ?? to) - other.From)),
        ];
        if (sound.Length > 0)
        {
            (double, double) moved = (still.From.Kelvins + MovedBy(sound, since, from), still.From.Kelvins + MovedBy(sound, since, to));
            return still.Why == StillReason.Suspected ? new PanelReach(likely, Colder(likely, moved), Warmer(likely, moved)) : Exactly(moved);
        }

        ((double Low, double High) start, (double Low, double High) end) = (StillAir.PanelAt(still, from), StillAir.PanelAt(still, to));
        return new PanelReach(likely, (start.Low, end.Low), (start.High, end.High));
    }

    /// <summary>The colder of two panels: that one counts.</summary>
    public PanelReach OrColder(PanelReach other) => new(Colder(Likely, other.Likely), Colder(Low, other.Low), Colder(High, other.High));

    /// <summary>Where a probe stood still, each air that may be with the coldest panel that may be, and the warmest; else none.</summary>
    public ImmutableArray<Alternative> Past(AirMix air)
    {
        if (Low == High)
        {
            return [];
        }

        (double Start, double End)[] ends = [Low, High];
        return
        [
            .. from other in air.Otherwise.Add(new Alternative(air.Start, air.End))
               from panel in ends
               select other.WithPanel(panel.Start, panel.End) with { IsPast = true },
        ];
    }

    private static (double Start, double End) Colder((double Start, double End) a, (double Start, double End) b) =>
        (Math.Min(a.Start, b.Start), Math.Min(a.End, b.End));

    private static (double Start, double End) Warmer((double Start, double End) a, (double Start, double End) b) =>
        (Math.Max(a.Start, b.Start), Math.Max(a.End, b.End));

    private static double MovedBy(Source[] panels, DateTimeOffset since, DateTimeOffset at) =>
        panels.Average(p => p.Around(at, at)!.KelvinsAt(at) - p.Around(since, since)!.KelvinsAt(since));
}
