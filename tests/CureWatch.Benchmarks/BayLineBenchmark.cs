using BenchmarkDotNet.Attributes;
using CureWatch.Bays;
using CureWatch.Curing;
using CureWatch.Panels;
using CureWatch.Readings;

namespace CureWatch.Benchmarks;

/// <summary>Reports on every car that waits in one bay: each with a line of its own, and all with one.</summary>
/// <remarks>Half of the cars are here, half are to come in the next days, each of two surfaces and two layers; the bay has heating, so that what would get a promise back is looked for.</remarks>
[MemoryDiagnoser]
public class BayLineBenchmark
{
    private Shop _shop = null!;

    [Params(5, 20, 80)]
    public int Cars { get; set; }

    [GlobalSetup]
    public void Wait()
    {
        Shop shop = BenchmarkDay.Shop();
        BayPlan plan = shop.Plan.Bays[0] with { Equipment = [Equipment.FixedHeating] };
        DateTimeOffset at = shop.Now;
        shop = ShopFold.Take(shop, new Message.PlanChanged(shop.Plan with { Bays = [plan] }, at)).Shop;
        string probe = plan.Probes.First(p => p.Probe.Measures == Measures.Air).Probe.Id;
        for (int minute = 0; minute < 60; minute++)
        {
            at += TimeSpan.FromMinutes(1);
            shop = ShopFold.Take(shop, new Message.ReadingCame(new RawReading(plan.Bay, probe, at, at, 18, 50, null))).Shop;
        }

        for (int car = 0; car < Cars; car++)
        {
            DateTimeOffset comes = at.AddHours(car);
            var job = new Job($"car-{car}", plan.Bay, null, comes.AddHours(40), [.. new[] { "bonnet", "roof" }.Select(s => new Surface(s, Material.Steel, null, Place.Outside, "product-0", 1, 2, 2))])
            {
                Visit = car % 2 == 0 ? null : new Visit(comes, 18, comes),
            };
            shop = ShopFold.Take(shop, new Message.JobStarted(job, at)).Shop;
        }

        _shop = shop;
    }

    [Benchmark(Baseline = true)]
    public int EachItsOwn() => _shop.JobsInOrder.Sum(j => JobReport.Of(_shop, j.Job.Id).Promise!.Text.ToString().Length);

    [Benchmark]
    public int AllShareOne()
    {
        var queues = new BayQueues(_shop);
        return _shop.JobsInOrder.Sum(j => JobReport.Of(_shop, j.Job.Id, queues).Promise!.Text.ToString().Length);
    }

    /// <summary>As a retained document has it: with what would get each promise back.</summary>
    [Benchmark]
    public int WithAdvice()
    {
        var queues = new BayQueues(_shop);
        return _shop.JobsInOrder.Sum(j => JobReport.Of(_shop, j.Job.Id, queues).Promise!.Advice.Value?.Text.ToString().Length ?? 0);
    }
}
