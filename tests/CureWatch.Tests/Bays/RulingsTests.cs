using CureWatch.Bays;
using CureWatch.Curing;
using CureWatch.Panels;
using CureWatch.Readings;
using CureWatch.TimeWindows;
using CureWatch.Warnings;

namespace CureWatch.Tests.Bays;

public class RulingsTests
{
    [Fact]
    public void Ruling_TurnsAtTheSlowEndOfKeepDry_ThoughNobodyAsks()
    {
        TestShop shop = Coated().Steady(1.1, 30);
        ShopEvent.RulingTurned turned = Assert.Single(shop.Happened.OfType<ShopEvent.RulingTurned>());
        DateTimeOffset latest = shop.Window(WindowStage.KeepDry).ClosesAt!.Latest!.Value;
        Assert.True(turned.IsReady);
        Assert.InRange(turned.At, latest, latest.AddMinutes(2)); // the slow bound waits for the reading after it
        Assert.Equal(shop.Report.Ruling.IsReady, shop.Shop.Find("job-1")!.IsReady);
    }

    [Fact]
    public void Ruling_TurnsTheSame_HoweverTheClockIsAsked()
    {
        IEnumerable<ShopEvent.RulingTurned> Turns(int steps)
        {
            TestShop shop = Coated().Steady(1.1, 12);
            for (int i = 1; i <= steps; i++)
            {
                shop.Until(12 + (20.0 * i / steps));
            }

            return shop.Happened.OfType<ShopEvent.RulingTurned>();
        }

        Assert.Equal(Turns(1), Turns(997));
    }

    // While a probe is silent the end is far off, and half-way there is hours; once it is heard again the end may be near.
    [Fact]
    public void Ruling_IsLookedAtAnew_OnceAProbeIsHeardAgain()
    {
        TestShop shop = Coated().Steady(1.1, 9).Until(12.9);
        shop.Steady(13, 30);
        ShopEvent.RulingTurned turned = Assert.Single(shop.Happened.OfType<ShopEvent.RulingTurned>());
        DateTimeOffset latest = shop.Window(WindowStage.KeepDry).ClosesAt!.Latest!.Value;
        Assert.InRange(turned.At, latest, latest.AddMinutes(2));
    }

    [Fact]
    public void Ruling_TurnsBack_WhenWaterTouchesAFreshCoat_AndWhenAnInspectionFindsSomething()
    {
        TestShop shop = Coated().Steady(1.1, 30).Tap(30, Did.Inspected, found: Found.Streak);
        Assert.Equal([true, false], shop.Happened.OfType<ShopEvent.RulingTurned>().Select(t => t.IsReady));
        shop.Tap(30.1, Did.Inspected, found: Found.Clear);
        Assert.True(shop.Shop.Find("job-1")!.IsReady);
    }

    [Fact]
    public void Ruling_IsForeseenOnlyAsOftenAsTheEndComesNearer() =>
        Assert.InRange(Coated().Steady(1.1, 40).Happened.OfType<ShopEvent.RulingForeseen>().Count(), 2, 30);

    // Between two readings the slow bound earns next to nothing, so an end that is seconds away recedes as fast as time goes.
    [Fact]
    public void Ruling_WhoseEndRecedes_IsNotForeseenAnewForEachMillisecond()
    {
        TestShop Wave(double appliedHour) => new TestShop().Climate(0, 1, Waving).Tap(appliedHour, Did.Applied).Tap(appliedHour + 0.05, Did.Levelled).Climate(1.1, 22, Waving);
        (double, double) Waving(double hour) => (20 + (3 * Math.Sin(hour * Math.Tau / 24)), 50 - (8 * Math.Sin(hour * Math.Tau / 24)));
        Assert.All(Enumerable.Range(40, 15), seconds =>
            Assert.InRange(Wave(1.01 + (seconds / 3600.0)).Happened.OfType<ShopEvent.RulingForeseen>().Count(), 2, 45));
    }

    [Fact]
    public void Car_ThatLeft_IsWatchedAndWarnedAboutNoMore()
    {
        TestShop shop = new TestShop().Steady(0, 1).Tap(1, Did.Applied).Until(1.05);
        Assert.Contains(shop.Shop.Standing.Keys, s => s.Job == "job-1");
        shop.Take(new Message.CarLeft("job-1", TestShop.At(1.05)));
        Assert.DoesNotContain(shop.Shop.Standing.Keys, s => s.Job == "job-1");
        Assert.Empty(shop.Shop.Find("job-1")!.Watched);
        Assert.Equal(TestShop.At(1.05), shop.Shop.Find("job-1")!.LeftAt);
        int told = shop.Shop.Warnings.Values.Count(w => w.Subject.Job is not null);
        shop.Steady(1.1, 3).Tap(3, Did.Inspected, found: Found.Clear).Until(40);
        Assert.Empty(shop.Shop.Find("job-1")!.Watched);
        Assert.Equal(told, shop.Shop.Warnings.Values.Count(w => w.Subject.Job is not null));
    }

    [Fact]
    public void Plan_ThatTakesAProbeAway_ClearsItsSilence_AndKeepsTheOthers()
    {
        TestShop shop = new TestShop(probes: [TestShop.Air("air-1"), TestShop.Air("air-2")]).Steady(0, 1);
        Assert.Contains(shop.Shop.Standing.Keys, s => s is { Kind: WarningKind.ProbeSilent, Probe: "air-2", Bay: "bay-1" });
        ShopPlan plan = shop.Shop.Plan;
        BayPlan first = plan.Bays[0];
        shop.Take(new Message.PlanChanged(plan with { Bays = [first with { Probes = [first.Probes[0]] }] }, TestShop.At(1)));
        Assert.DoesNotContain(shop.Shop.Standing.Keys, s => s.Kind == WarningKind.ProbeSilent);
        Assert.Equal(61, shop.Shop.Bays["bay-1"].Logs.Single().Air.Count);
        Assert.Equal(shop.Shop.Tally.Accepted + 1, shop.Read(1.02, 20, 50).Shop.Tally.Accepted);
    }

    [Fact]
    public void Plan_WithoutABay_ClearsWhatWasToldOfItsAir_AndItsCoatsGoOnWhenItIsBack()
    {
        TestShop shop = Coated().Steady(1.05, 2).Steady(2, 3, humidityPct: 95);
        ShopPlan plan = shop.Shop.Plan;
        Assert.Contains(shop.Shop.Standing.Keys, s => s is { Kind: WarningKind.HumidityHigh, Bay: "bay-1" });
        shop.Take(new Message.PlanChanged(plan with { Bays = [plan.Bays[1]] }, TestShop.At(3.1))).Until(4);
        Assert.DoesNotContain(shop.Shop.Standing.Keys, s => s.Bay == "bay-1");
        Assert.Empty(shop.Shop.Bays["bay-1"].Alarms);
        shop.Take(new Message.PlanChanged(plan, TestShop.At(5))).Steady(5, 30);
        var earned = shop.Report.Surfaces[0].Coats[0].ReferenceHours;
        Assert.InRange(earned.Low, 20, 30 - 2);
        Assert.DoesNotContain(shop.Shop.Standing.Keys, s => s.Bay == "bay-1");
    }

    [Fact]
    public void Plan_WithANewOffset_CorrectsFromThenOn()
    {
        TestShop shop = new TestShop().Steady(0, 1);
        ShopPlan plan = shop.Shop.Plan;
        BayPlan first = plan.Bays[0];
        ProbeMount mount = first.Probes[0];
        first = first with { Probes = [mount with { Probe = mount.Probe with { OffsetTemperatureK = 2 } }] };
        shop.Take(new Message.PlanChanged(plan with { Bays = [first, plan.Bays[1]] }, TestShop.At(1))).Read(1.02, 20, 50);
        Trail<Sample> air = shop.Shop.Bays["bay-1"].Logs[0].Air;
        Assert.Equal(2, air.Last.Kelvins - air[0].Kelvins, 6);
    }

    private static TestShop Coated() => new TestShop().Steady(0, 1).Tap(1, Did.Applied, startedHour: 0.99).Tap(1.05, Did.Levelled);
}
