using System.Collections.Immutable;
using CureWatch.Bays;
using CureWatch.Curing;
using CureWatch.Handover;
using CureWatch.Panels;
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

    private static TestShop Fit(TestShop shop, double hour, string? probe)
    {
        ImmutableArray<ProbeMount> probes = probe is null ? [] : [new ProbeMount(TestShop.Air(probe), null, Place.Outside)];
        return shop.Until(hour).Take(new Message.PlanChanged(shop.Shop.Plan with { Bays = [.. shop.Shop.Plan.Bays.Select(b => b with { Probes = probes })] }, TestShop.At(hour)));
    }
}
