using System.Collections.Immutable;
using CureWatch.Curing;
using CureWatch.Panels;
using CureWatch.Readings;
using CureWatch.Units;

namespace CureWatch.Bays;

/// <summary>What was read on a surface itself: by hand, by the probe that names it or bears its name, and by the one that shows its lamp's heat.</summary>
internal static class OwnReadings
{
    /// <summary>The readings of a surface since an instant, in order.</summary>
    public static ImmutableArray<OwnReading> Of(Shop shop, SurfaceKey key, SurfaceStory story, ImmutableArray<Stay> stays, DateTimeOffset since) =>
        Of(shop, key, story, stays, since, (bay, i) => (LampHeat.LentTo(bay, i, null), LampHeat.LentTo(bay, i, key)));

    /// <summary>The same, and those that may as well be another surface's: too hot for one of them is told of each.</summary>
    public static ImmutableArray<OwnReading> Possible(Shop shop, SurfaceKey key, SurfaceStory story, ImmutableArray<Stay> stays, DateTimeOffset since) =>
        Of(shop, key, story, stays, since, (bay, i) => (LampHeat.MaySayOf(bay, i, key), []));

    /// <summary>Whether a probe may have told something of a surface.</summary>
    public static bool MayBeOf(BayState bay, int index, SurfaceKey key) =>
        bay.Plan.Probes[index].IsOn(key.Surface) || LampHeat.LentTo(bay, index, null).Length > 0;

    private static ImmutableArray<OwnReading> Of(
        Shop shop,
        SurfaceKey key,
        SurfaceStory story,
        ImmutableArray<Stay> stays,
        DateTimeOffset since,
        Func<BayState, int, (ImmutableArray<Spell> OfIt, ImmutableArray<Spell> OfOthers)> shownBy)
    {
        var own = new List<OwnReading>(story.ReadByHand.Where(r => r.At >= since));
        foreach (Stay stay in stays)
        {
            if (stay.Point is { } point && !(stay.To <= since))
            {
                BayState bay = shop.Bays[point.Bay];
                DateTimeOffset from = stay.From > since ? stay.From : since;
                own.AddRange(Enumerable.Range(0, bay.Logs.Length).SelectMany(i => Of(bay, i, key, from, stay.To, shownBy)));
            }
        }

        return [.. own.OrderBy(r => r.At)];
    }

    private static IEnumerable<OwnReading> Of(
        BayState bay,
        int index,
        SurfaceKey key,
        DateTimeOffset from,
        DateTimeOffset? to,
        Func<BayState, int, (ImmutableArray<Spell> OfIt, ImmutableArray<Spell> OfOthers)> shownBy)
    {
        ProbeLog log = bay.Logs[index];
        bool isNamed = bay.Plan.Probes[index].IsOn(key.Surface);
        (ImmutableArray<Spell> ofIt, ImmutableArray<Spell> ofOthers) = isNamed ? ([], []) : shownBy(bay, index);
        if (!isNamed && ofIt.IsEmpty)
        {
            yield break;
        }

        TimeSpan reach = OwnReading.ReachOfProbe(log.Probe.Every);
        for (int i = log.Panel.CountWhile((in s) => s.At < from); i < log.Panel.Count && !(log.Panel[i].At > to); i++)
        {
            Sample read = log.Panel[i];
            bool isMeasured = log.Standing.Stills.Over(Quantity.Temperature, read.At, read.At) is null; // what it only repeated was not
            if (isMeasured && (isNamed || (ofIt.Any(l => l.Covers(read.At)) && !ofOthers.Any(l => l.Covers(read.At)))))
            {
                yield return new OwnReading(read.At, Celsius.FromKelvins(read.Kelvins).Degrees, reach);
            }
        }
    }
}
