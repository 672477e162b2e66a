using System.Collections.Immutable;
using CsCheck;
using CureWatch.Bays;
using CureWatch.Curing;
using CureWatch.Panels;
using CureWatch.Planning;
using CureWatch.Reports;
using static CureWatch.Tests.Bays.SharedAir;

namespace CureWatch.Tests.Bays;

/// <summary>Cars that wait for one bay: what their customers are told begins where the day plan begins them.</summary>
public class BayQueueTests
{
    private static readonly Gen<QueuedCase> Cars =
        from state in Gen.Int[0, 5]
        from comes in Gen.Double[1.5, 60]
        from asks in Gen.Bool
        from layers in Gen.Int[1, 2]
        from promised in Gen.OneOf(Gen.Const(double.NaN), Gen.Double[4, 150])
        select new QueuedCase(state, comes, asks, layers, promised);

    private static readonly Gen<(double AirC, double Pct, double Now, QueuedCase[] Cars, (int Work, double From)[] Works)> Queues = Gen.Select(
        Gen.Double[13, 24], Gen.Double[35, 65], Gen.Double[1.2, 14], Cars.Array[1, 4], Gen.Select(Gen.Int[0, 4], Gen.Double[1, 60]).Array[0, 2]);

    /// <summary>Two cars, nothing on the second: it was told a promise of 99 % while the plan had the bay taken until the next morning.</summary>
    [Fact]
    public void Promise_OfACarWhoseBayIsTaken_BeginsOnceThatIsFree_AndSaysSo()
    {
        TestShop shop = Hall().Both(0, 1).Tap(1, Did.Applied).Tap(1.05, Did.Levelled).Car("job-2", "bay-1", 1.1, promisedAt: TestShop.At(33));
        PromiseReport promise = PromiseReport.Of(shop.Shop, "job-2");
        Assert.True(promise.Outlook.Chance < 0.001);
        Assert.Equal(("job-1", TestShop.At(25.25)), (promise.After!.Job, promise.After.LeavesAt.Latest));
        Assert.Equal(TestShop.At(25.25), promise.BeginsAt!.Latest);
        Assert.Contains("begun after job-1 leaves bay-1, about Tue 09:15", promise.Text.ToString(), StringComparison.Ordinal);
        Assert.True(promise.Outlook.CollectFrom > TestShop.At(36));
        Assert.Equal(TestShop.At(25.25), promise.LastStart.Value is { By: { } by } ? by : TestShop.At(25.25));
        Assert.True(PromiseReport.Of(shop.Shop, "job-1").After is null);
        Assert.True(PromiseReport.Of(shop.Take(new Message.CarLeft("job-1", TestShop.At(1.2))).Shop, "job-2").Outlook.Chance > 0.9);
    }

    /// <summary>A car that people work on is in the bay, whoever else is.</summary>
    [Theory]
    [InlineData(Did.PanelWiped, false)]
    [InlineData(Did.Told, true)]
    public void Car_PeopleWorkOn_WaitsForNobody(Did did, bool waits)
    {
        TestShop shop = Hall().Both(0, 1).Tap(1, Did.Applied).Tap(1.05, Did.Levelled).Car("job-2", "bay-1", 1.1);
        shop.Take(new Message.Tapped("job-2", new Tap("t", TestShop.At(1.2), TestShop.At(1.2), null, did) { PromisedAt = did == Did.Told ? TestShop.At(60) : null }));
        Assert.Equal(waits, PromiseReport.Of(shop.Shop, "job-2").After is not null);
        Assert.Equal(waits ? TestShop.At(25.25) : TestShop.At(1.2), PromiseReport.Of(shop.Shop, "job-2").BeginsAt!.Latest);
    }

    /// <summary>A car that was washed and put into the store until Thursday keeps no bay from Tuesday's.</summary>
    [Fact]
    public void Car_ThatWasMovedOutBeforeItWasBegun_TakesNoBay()
    {
        TestShop shop = Hall().Both(0, 1).Tap(0.5, Did.Washed).Tap(1, Did.Moved, toBay: "store").Car("job-2", "bay-1", 1.1);
        shop.Take(new Message.VisitPlanned("job-1", new Visit(TestShop.At(0), null, TestShop.At(72)), TestShop.At(1.1)));
        PromiseReport promise = PromiseReport.Of(shop.Shop, "job-2");
        Assert.Null(promise.After);
        Assert.True(promise.BeginsAt!.Latest < TestShop.At(2), $"{promise.BeginsAt.Latest}");
    }

    /// <summary>What somebody told the customer is nothing done to the car: it is still to come.</summary>
    [Fact]
    public void Car_WhoseCustomerWasToldATime_IsStillToCome()
    {
        TestShop shop = Hall().Both(0, 1).Car("job-2", "bay-2", 0.5, new Visit(TestShop.At(30), 20, null));
        shop.Take(new Message.Tapped("job-2", new Tap("t", TestShop.At(1), TestShop.At(1), null, Did.Told) { PromisedAt = TestShop.At(60) }));
        Assert.True(shop.Shop.Jobs["job-2"].IsExpectedAt(TestShop.At(1.5)));
        CarDay car = Assert.Single(DayPlan.Of(shop.Shop).Bays[1].Cars);
        Assert.Equal((TestShop.At(30), TestShop.At(60)), (car.Arrival.At, car.PromisedAt));
    }

    [Fact]
    public void Promise_BehindACarThatIsWet_CannotBeTold()
    {
        TestShop shop = Hall().Both(0, 1).Tap(1, Did.Applied).Tap(1.05, Did.Levelled).Tap(1.1, Did.Wetted).Car("job-2", "bay-1", 1.2, promisedAt: TestShop.At(150));
        PromiseReport promise = PromiseReport.Of(shop.Shop, "job-2");
        Assert.Equal((0, null), (promise.Outlook.Chance, promise.Outlook.CollectFrom));
        Assert.Contains("after job-1 leaves bay-1, and nobody can tell when", promise.Text.ToString(), StringComparison.Ordinal);
        Assert.Null(promise.LastStart.Value);
    }

    [Fact]
    public void Plan_AndPromise_TellTheSameOfEveryCar() => Queues.Sample(
        q =>
        {
            Shop shop = Told(q.AirC, q.Pct, q.Now, q.Cars, q.Works);
            DayPlan plan = DayPlan.Of(shop);
            DateTimeOffset? free = DateTimeOffset.MinValue;
            foreach (CarDay car in plan.Bays[0].Cars)
            {
                PromiseReport promise = PromiseReport.Of(shop, car.Job.Id);
                Assert.Equal(promise.Outlook.PromisedAt, car.PromisedAt);
                if (!car.IsPlanned)
                {
                    Assert.Null(promise.After);
                    continue;
                }

                Assert.Equal(promise.Outlook.CollectFrom < shop.Now ? shop.Plan.Hours.AfterWork(shop.Now, TimeSpan.Zero) : promise.Outlook.CollectFrom, car.Work.FreesAt);
                Assert.Equal(car.Work.ReadyAt?.Latest, promise.Outlook.ReadyAt?.Latest);
                Assert.True(promise.Outlook.ReadyAt is not { Latest: { } latest, Likely: { } likely, Earliest: { } earliest } || (earliest <= likely && likely <= latest));
                Assert.Equal(car.PromisedAt is { } promised && !(car.Work.FreesAt <= promised), promise.Outlook.ChanceOnceLifted < 0.95 - 1e-9 && promise.Outlook.PromisedAt is not null);
                if (!car.IsBegun && !shop.Jobs[car.Job.Id].Told.Any(t => t.Did != Did.Told))
                {
                    Assert.Equal(car.Work.BeginsAt, promise.BeginsAt!.Latest);
                    Assert.True(car.Work.BeginsAt is null || car.Work.BeginsAt >= free);
                }

                free = car.Work.FreesAt is null ? (car.Arrival.IsHere ? DateTimeOffset.MaxValue : free) : free > car.Work.FreesAt ? free : car.Work.FreesAt;
            }

            Assert.Equal(PromiseReport.OfAll(shop).Select(p => p.Text), shop.JobsInOrder.Where(j => j.LeftAt is null).Select(j => PromiseReport.Of(shop, j.Job.Id).Text));
        },
        40);

    private static Shop Told(double airC, double pct, double now, QueuedCase[] cars, (int Work, double From)[] works)
    {
        var shop = new TestShop();
        shop.Take(new Message.PlanChanged(shop.Shop.Plan with { Bays = [.. shop.Shop.Plan.Bays.Select(b => b with { Airspace = "hall" })] }, TestShop.At(0)));
        shop.Take(new Message.CarLeft("job-1", TestShop.At(0)));
        shop.Climate(0, 1, _ => (airC, pct)).Climate(0, 1, _ => (airC, pct), "bay-2");
        foreach ((QueuedCase car, int i) in cars.Select((c, i) => (c, i)))
        {
            string id = $"car-{i}";
            Visit? visit = car.State < 3 ? null : new Visit(TestShop.At(car.State == 5 ? car.Comes * 10 : car.Comes), airC, car.Asks ? TestShop.At(car.Comes + 1) : null);
            shop.Take(new Message.JobStarted(
                new Job(id, "bay-1", null, double.IsNaN(car.Promised) ? null : TestShop.At(car.Promised), [new Surface("roof", Material.Steel, null, Place.Outside, "paint", 1, car.Layers, 1)])
                {
                    Visit = visit,
                },
                TestShop.At(1)));
            foreach (Did did in car.State switch { 0 => [Did.Applied, Did.Levelled], 1 => [Did.PanelWiped], _ => ImmutableArray<Did>.Empty })
            {
                shop.Take(new Message.Tapped(id, new Tap($"{id}-{did}", TestShop.At(1.05), TestShop.At(1.05), null, did, did == Did.PanelWiped ? null : 1)));
            }
        }

        foreach (((int work, double from), int i) in works.Select((w, i) => (w, i)))
        {
            shop.Planned((HarmfulWork)work, from, from + 1, 1.1, $"work-{i}");
        }

        return shop.Climate(1.2, now, _ => (airC, pct)).Climate(now - 0.1, now, _ => (airC, pct), "bay-2").Shop;
    }

    private sealed record QueuedCase(int State, double Comes, bool Asks, int Layers, double Promised);
}
