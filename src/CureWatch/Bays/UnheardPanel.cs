using System.Collections.Immutable;
using CureWatch.Panels;
using CureWatch.Planning;
using CureWatch.Words;

namespace CureWatch.Bays;

/// <summary>Says what a surface's times assume in place of a panel probe that nobody waits for any more.</summary>
internal static class UnheardPanel
{
    /// <summary>Says it.</summary>
    /// <returns>A sentence for each probe, a space before it; empty where all are heard.</returns>
    public static Sentence InWords(Shop shop, Present present, ImmutableArray<Stay> stays) => stays[^1].Point is not { } point
        ? Sentence.None
        : Sentence.Join("", present.WatchAt(point).GivenUp(present.Now).Select(p => (Sentence)$" {Says(shop, present, point, p)}"));

    private static Sentence Says(Shop shop, Present present, WatchPoint point, Source probe)
    {
        double coldestK = present.WatchAt(point).Over(present.Now, present.Now, present.Now) is { } air ? air.AtEnd.AirKelvins - air.Alternatives.Min(a => a.AtEnd.PanelKelvins) : 0;
        Sentence since = WallClock.Of(probe.Last.At, present.Now, shop.Plan.Hours.Zone);
        return $"Its panel is reckoned from the air, up to {new Figure.Difference(coldestK, "0.#")} colder: {probe.Probe} has not been heard since {since}.";
    }
}
