using System.Collections.Immutable;
using CureWatch.Bays;
using CureWatch.Curing;
using CureWatch.Handover;
using CureWatch.Panels;
using CureWatch.Readings;
using CureWatch.TimeWindows;

namespace CureWatch.Tests.Bays;

/// <summary>Who fits a probe, takes one away or puts another in its place changes what is measured from then on, and nothing of what was. Common practice, no source.</summary>
public class RefittedBayTests
{
    // Another device under another name: the hours between the two are a gap, not hours that never were.
    [Fact]
    public void ProbeReplacedByAnother_ClosesTheNextLayerNoLater()
    {
        TestShop shop = new TestShop(layers: 2).Steady(0, 1).Tap(0.9, Did.Applied).Tap(1, Did.Levelled).Steady(1, 3);
        DateTimeOffset foreseen = shop.Window(WindowStage.Recoat).ClosesAt!.Earliest!.Value;

        Fit(shop, 6, "air-2");
        for (int minute = 0; minute <= 45; minute++)
        {
            shop.Read(6 + (minute / 60.0), 20, 50, "air-2");
        }

        TimeBounds closes = shop.Window(WindowStage.Recoat).ClosesAt!;
        Assert.True(closes.Earliest <= foreseen, $"{closes.Earliest}, foreseen {foreseen}");
        Assert.InRange(shop.Report.Surfaces[0].Coats[0].ReferenceHours.Likely, 5.5, 6);
    }

    [Fact]
    public void ProbeFittedLater_LeavesTheHoursBeforeUnwatched()
    {
        TestShop shop = Fit(new TestShop(), 0, null).Tap(0.1, Did.Applied).Tap(0.2, Did.Levelled).Until(6);
        Assert.Contains(HoldKind.Unwatched, shop.HoldKinds);

        Fit(shop, 6, "air-1").Steady(6, 30);
        Assert.Contains(HoldKind.Unwatched, shop.HoldKinds);
    }

    [Fact]
    public void ProbeTakenAway_LeavesWhatItMeasured()
    {
        TestShop shop = new TestShop().Steady(0, 1, 25, 60).Tap(0.1, Did.Applied).Tap(0.2, Did.Levelled).Climate(1, 4, hour => (25, hour is > 2 and < 2.3 ? 100 : 60));
        double earned = shop.Report.Surfaces[0].Coats[0].ReferenceHours.Likely;
        Assert.Contains(HoldKind.Condensation, shop.HoldKinds);

        Fit(shop, 4.01, null).Until(4.02);
        Assert.Equal(earned, shop.Report.Surfaces[0].Coats[0].ReferenceHours.Likely, 0.1);
        Assert.Contains(HoldKind.Condensation, shop.HoldKinds);
        Assert.Contains(HoldKind.Unwatched, shop.HoldKinds);
    }

    // Nine tenths of the cure under a probe of ±1 K: the last tenth beside a better one makes that no surer.
    [Theory]
    [InlineData(true)]
    [InlineData(false)]
    public void BetterProbes_MakeWhatWasMeasuredByPoorOnesNoSurer(bool byMoving)
    {
        static Probe Poor(string id) => TestShop.Air(id) with { AccuracyTemperatureK = 1, AccuracyHumidityPct = 5 };
        TestShop shop = new TestShop(null, 1, 1, Place.Outside, null, Poor("air-1")).Steady(0, 1).Tap(0.9, Did.Applied).Tap(1, Did.Levelled)
            .Climate(1, 11, _ => (20, 50)).Climate(10, 11, _ => (20, 50), bay: "bay-2");
        DateTimeOffset foreseen = shop.Window(WindowStage.KeepDry).ClosesAt!.Latest!.Value, recoat = shop.Window(WindowStage.NoWash).ClosesAt!.Earliest!.Value;

        ImmutableArray<ProbeMount> better = [new(Poor("air-1"), null, Place.Outside), new(TestShop.Air("air-2"), null, Place.Outside)];
        shop.Take(new Message.PlanChanged(
            shop.Shop.Plan with { Bays = [.. shop.Shop.Plan.Bays.Select(b => b.Bay == "bay-1" == byMoving ? b : b with { Probes = better })] }, TestShop.At(11)));
        shop = byMoving ? shop.Tap(11.01, Did.Moved, toBay: "bay-2") : shop;
        for (int minute = 1; minute <= 30; minute++)
        {
            double hour = 11 + (minute / 60.0);
            string bay = byMoving ? "bay-2" : "bay-1";
            shop.Read(hour, 20, 50, "air-1", bay).Read(hour, 20, 50, "air-2", bay);
        }

        Assert.True(shop.Window(WindowStage.KeepDry).ClosesAt!.Latest >= foreseen.AddMinutes(-1), $"{shop.Window(WindowStage.KeepDry).ClosesAt}, foreseen {foreseen}");
        Assert.True(shop.Window(WindowStage.NoWash).ClosesAt!.Earliest <= recoat.AddMinutes(5), $"{shop.Window(WindowStage.NoWash).ClosesAt}, foreseen {recoat}");
    }

    private static TestShop Fit(TestShop shop, double hour, string? probe)
    {
        ImmutableArray<ProbeMount> probes = probe is null ? [] : [new ProbeMount(TestShop.Air(probe), null, Place.Outside)];
        return shop.Until(hour).Take(new Message.PlanChanged(shop.Shop.Plan with { Bays = [.. shop.Shop.Plan.Bays.Select(b => b with { Probes = probes })] }, TestShop.At(hour)));
    }
}
