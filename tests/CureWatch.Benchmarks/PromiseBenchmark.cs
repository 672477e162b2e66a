using System.Collections.Immutable;
using BenchmarkDotNet.Attributes;
using CureWatch.Bays;
using CureWatch.Curing;
using CureWatch.Panels;
using CureWatch.Readings;

namespace CureWatch.Benchmarks;

/// <summary>Forecast, projection and promise of a bay with forty coats anew, after a week and after six weeks of history.</summary>
/// <remarks>
/// The car has five surfaces of three materials in four sections and two layers: all forty coats are on. What is refreshed is all that the page and the retained document
/// show without advice: every window's end and the chance. Before the car came there is a reading each quarter of an hour, since then one a minute. Target: less than 5 ms, and
/// no more after six weeks than after one.
/// </remarks>
[MemoryDiagnoser]
public class PromiseBenchmark
{
    private static readonly DateTimeOffset Start = new(2026, 3, 2, 8, 0, 0, TimeSpan.Zero);

    private Shop _shop = null!;

    [Params(7, 42)]
    public int Days { get; set; }

    [GlobalSetup]
    public void Live()
    {
        Shop shop = BenchmarkDay.Shop();
        BayPlan plan = shop.Plan.Bays[0] with { Equipment = [Equipment.FixedHeating] };
        DateTimeOffset at = shop.Now;
        shop = Take(shop, new Message.PlanChanged(shop.Plan with { Bays = [plan] }, at));
        for (int quarter = 0; quarter < Days * 96; quarter++)
        {
            at += TimeSpan.FromMinutes(15);
            shop = Read(shop, plan, at);
        }

        ImmutableArray<Surface> surfaces =
        [
            .. new[] { ("bonnet", Material.Steel), ("roof", Material.Steel), ("doors", Material.Aluminium), ("screen", Material.Glass), ("wheels", Material.Casting) }
                .Select((s, i) => new Surface(s.Item1, s.Item2, null, Place.Outside, $"product-{i % 4}", 1, 2, 4)),
        ];
        shop = Take(shop, new Message.JobStarted(new Job("car", plan.Bay, null, at.AddHours(30), surfaces), at));
        foreach (int layer in new[] { 1, 2 })
        {
            foreach (Surface surface in surfaces)
            {
                shop = Take(ReadFor(shop, plan, 17, ref at), Tap(at, surface, Did.Applied, layer));
                shop = Take(ReadFor(shop, plan, 3, ref at), Tap(at, surface, Did.Levelled, layer));
            }
        }

        _shop = ReadFor(shop, plan, 15, ref at);
    }

    [Benchmark]
    public PromiseReport Refresh() => PromiseReport.Of(_shop, "car");

    [Benchmark]
    public PromiseAdvice? Advice() => PromiseAdvice.Of(_shop, "car", 0.999);

    private static Message.Tapped Tap(DateTimeOffset at, Surface surface, Did did, int layer) =>
        new("car", new Tap($"{surface.Id}-{did}-{layer}", at, at, surface.Id, did, layer));

    /// <summary>A reading a minute, as a probe in a bay with a car gives them.</summary>
    private static Shop ReadFor(Shop shop, BayPlan plan, int minutes, ref DateTimeOffset at)
    {
        for (int minute = 0; minute < minutes; minute++)
        {
            at += TimeSpan.FromMinutes(1);
            shop = Read(shop, plan, at);
        }

        return shop;
    }

    private static Shop Read(Shop shop, BayPlan plan, DateTimeOffset at)
    {
        double airC = 17 + (4 * Math.Cos(2 * Math.PI * (at - Start).TotalDays)) + (0.3 * Math.Sin((at - Start).TotalHours / 3.7));
        string probe = plan.Probes.First(p => p.Probe.Measures == Measures.Air).Probe.Id;
        return Take(shop, new Message.ReadingCame(new RawReading(plan.Bay, probe, at, at, airC, 50, null)));
    }

    private static Shop Take(Shop shop, Message message) => ShopFold.Take(shop, message).Shop;
}
