using System.Collections.Immutable;
using CureWatch.Curing;
using CureWatch.Forecasting;
using CureWatch.Panels;

namespace CureWatch.Bays;

/// <summary>What a surface may be exposed to by now where nobody knows it: what a gap, or a probe that stands still, may have become.</summary>
/// <remarks>
/// By the rates of a gap, counted from the last that was believed, for six hours (<see cref="GapEnvelope.LongestEarning"/>): what a bay was before says
/// no less then, and no more.
/// </remarks>
internal static class UnknownPresent
{
    /// <summary>What would be expected if the climates were measured now between which the present lies.</summary>
    /// <param name="newest">The newest that is known, held to the present.</param>
    /// <param name="watch">The probes.</param>
    /// <param name="now">The present.</param>
    /// <param name="isLit">Whether a lamp burns over the surface: nobody knows for how long.</param>
    /// <returns>An outlook for each of their corners; none where the present is known.</returns>
    public static ImmutableArray<Outlook> Of(ClimateSegment newest, Watch watch, DateTimeOffset now, bool isLit) =>
        [.. Corners(newest, watch, now).Select(e => e with { ColderK = newest.AtEnd.ColderK })
            .Select(e => new Outlook(now, isLit ? e.Unlit() : e, []) { UnknownSince = Since(newest, watch, now) })];

    /// <summary>From when on something is missing, or stands still.</summary>
    private static DateTimeOffset Since(ClimateSegment newest, Watch watch, DateTimeOffset now) =>
        (newest.Unseen is { } unseen ? unseen.Air.Concat(unseen.Panels).Select(b => b.From) : [])
            .Concat(watch.Air.Concat(watch.Awaited).Select(s => s.StoodStillSince(now, now)).OfType<DateTimeOffset>())
            .Append(now).Min();

    private static IEnumerable<Exposure> Corners(ClimateSegment newest, Watch watch, DateTimeOffset now)
    {
        ImmutableArray<Alternative> still = newest.Alternatives.Any(a => a.IsPast) ? Still(newest, watch, now) : [];
        return newest.Unseen is { } unseen
            ? GapClimate.AtTheEnd(newest with { Alternatives = [.. newest.Alternatives.Where(a => !a.IsPast), .. still] }, unseen).CornersAtTheEnd()
            : still.Select(s => s.AtEnd);
    }

    private static ImmutableArray<Alternative> Still(ClimateSegment newest, Watch watch, DateTimeOffset now)
    {
        if (watch.StandingSince(now - GapEnvelope.LongestEarning).Over(now, now, now) is not { } held)
        {
            return [];
        }

        double ownK = newest.AtEnd.PanelKelvins - held.AtEnd.PanelKelvins; // a surface that is modelled lags behind what it follows
        return [.. held.Alternatives.Where(a => a.IsPast).Select(a => a.Warmer(ownK, ownK))];
    }
}
