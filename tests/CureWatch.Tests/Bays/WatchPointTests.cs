using System.Collections.Immutable;
using CureWatch.Bays;
using CureWatch.Panels;
using CureWatch.Readings;

namespace CureWatch.Tests.Bays;

public class WatchPointTests
{
    private static readonly ImmutableArray<ProbeMount> Mounts =
    [
        new(TestShop.Air("air"), null, Place.Outside),
        new(TestShop.Air("seat"), null, Place.Cabin),
        new(TestShop.Panel("steel"), Material.Steel, Place.Outside),
        new(TestShop.Panel("glass"), Material.Glass, Place.Outside),
        new(TestShop.Panel("somewhere"), null, Place.Outside),
        new(TestShop.Panel("dash"), Material.Plastic, Place.Cabin),
        new(TestShop.Panel("clip"), Material.Steel, Place.Outside, "bonnet"),
        new(TestShop.Air("yard") with { Measures = Measures.Outdoor }, null, Place.Outside),
    ];

    /// <summary>Of every choice of probes that were heard: exactly those whose readings are among a point's sources change its climate.</summary>
    [Fact]
    public void ProbeThatTellsOfAPoint_IsOneOfItsSources_AndNoOtherIs()
    {
        WatchPoint steel = new("bay-1", Place.Outside, Material.Steel);
        WatchPoint[] points =
        [
            steel, steel with { Own = new SurfaceKey("job-1", "bonnet") }, steel with { Material = Material.Glass }, steel with { Material = Material.Plastic },
            steel with { Material = Material.Film, Over = Material.Steel }, steel with { Material = Material.Fabric, Place = Place.Cabin },
        ];
        for (int heard = 0; heard < 1 << Mounts.Length; heard++)
        {
            BayState bay = HeardBay(heard);
            foreach (WatchPoint point in points)
            {
                Watch watch = point.WatchIn(bay);
                IEnumerable<Source> sources = [.. watch.Air, .. watch.Panels, .. watch.Neighbours, .. watch.Hall?.Outdoors ?? []];
                IEnumerable<string> tell = Enumerable.Range(0, Mounts.Length).Where(i => (heard & (1 << i)) != 0 && point.IsToldBy(bay, i)).Select(i => Mounts[i].Probe.Id);
                Assert.Equal(sources.Select(s => s.Probe).Order(StringComparer.Ordinal), tell.Order(StringComparer.Ordinal));
            }
        }
    }

    private static BayState HeardBay(int heard)
    {
        BayState bay = BayState.Opening(new BayPlan("bay-1", 1013.25, "bay-1", [], Mounts), TestShop.Start);
        return bay with { Logs = [.. bay.Logs.Select((log, i) => (heard & (1 << i)) != 0 ? log.Believe(Reading(log.Probe)) : log)] };
    }

    private static RawReading Reading(Probe probe) => probe.Measures == Measures.Panel
        ? new RawReading("bay-1", probe.Id, TestShop.Start, TestShop.Start, null, null, 18)
        : new RawReading("bay-1", probe.Id, TestShop.Start, TestShop.Start, 20, 50, null);
}
