using System.Collections.Immutable;
using CureWatch.Bays;
using CureWatch.Curing;
using CureWatch.Handover;
using CureWatch.Panels;
using CureWatch.Products;
using CureWatch.Readings;
using CureWatch.Tests.Bays;
using CureWatch.TimeWindows;
using CureWatch.Units;

namespace CureWatch.Tests.Days;

/// <summary>A shut cabin is not the bay; a part off the car lies in the bay's air. Common practice, no source.</summary>
public class PlacesTests
{
    /// <summary>The sheet of the test shop, and a row of ten degrees that takes three times as long.</summary>
    private static readonly ProductSheet TwoRows = TestShop.Paint() is var paint
        ? paint with { Stages = [.. paint.Stages.Select(s => s.Stage == Stage.KeepDry ? s with { Rows = [.. s.Rows, s.Rows[0] with { Temperature = new Celsius(10), From = TimeSpan.FromHours(36), To = TimeSpan.FromHours(36) }] } : s)] }
        : null!;

    [Fact]
    public void SeatInACabinWithoutAProbe_IsUnwatched_AndEarnsTheSlowBoundNothing()
    {
        TestShop shop = new TestShop(TwoRows, place: Place.Cabin).Steady(0, 1).Tap(1, Did.Applied).Tap(1.05, Did.Levelled).Steady(1.1, 30);
        Assert.Contains(HoldKind.Unwatched, shop.HoldKinds);
        Assert.Contains(HoldKind.KeepDry, shop.HoldKinds);
        Assert.Equal(0, shop.Report.Surfaces[0].Coats[0].ReferenceHours.Low);
    }

    [Fact]
    public void SeatInACabinWithoutAProbe_IsReleasedByTheSlowestRow_AndALookAfterIt()
    {
        TestShop shop = new TestShop(TwoRows, place: Place.Cabin).Steady(0, 1).Tap(1, Did.Applied).Tap(1.05, Did.Levelled).Steady(1.1, 20);
        Assert.Equal(TestShop.At(1.05 + 36), shop.Window(WindowStage.KeepDry).ClosesAt!.Latest!.Value, TimeSpan.FromSeconds(1));
        Assert.All(shop.Holds.Where(h => h.Kind != HoldKind.LevelMissed), h => Assert.Contains("the sheet's slowest row, an assumption, for nobody measured", h.Text.ToString(), StringComparison.Ordinal));
        shop.Tap(20, Did.Inspected, found: Found.Clear).Until(40);
        Assert.Equal([HoldKind.Unwatched], shop.HoldKinds); // a look before the time says nothing of the rest of it
        shop.Tap(40, Did.Inspected, found: Found.Clear);
        Assert.True(shop.Report.Ruling.IsReady);
    }

    [Fact]
    public void CarPutIntoTheStoreInMidCure_KeepsWhatWasMeasured_AndTakesTheRestByTheSlowestRow()
    {
        TestShop shop = new TestShop(TwoRows).Steady(0, 1).Tap(1, Did.Applied).Tap(1.05, Did.Levelled).Steady(1.1, 7);
        DateTimeOffset? inTheBay = shop.Window(WindowStage.KeepDry).ClosesAt!.Latest;
        DateTimeOffset? away = shop.Tap(7, Did.Moved, toBay: "store").Until(7.5).Window(WindowStage.KeepDry).ClosesAt!.Latest;
        Assert.True(away > inTheBay, $"{away} is not later than {inTheBay}");
        Assert.True(away < TestShop.At(1.05 + 36));
        shop.Tap(9, Did.Moved, toBay: "bay-1").Steady(9, 10);
        Assert.True(shop.Window(WindowStage.KeepDry).ClosesAt!.Latest >= inTheBay + TimeSpan.FromHours(1.5));
        Assert.Contains(shop.Holds, h => h.Kind == HoldKind.Unwatched && h.Text.ToString().Contains("bring it back", StringComparison.Ordinal));
    }

    [Fact]
    public void CarMovedToAnotherBayInMidCure_TakesThatClimate_AndIsNoGap()
    {
        TestShop shop = new TestShop(TwoRows).Steady(0, 1).Tap(1, Did.Applied).Tap(1.05, Did.Levelled).Steady(1.1, 4);
        shop.Climate(3.9, 4, _ => (10, 50), "bay-2");
        DateTimeOffset? warm = shop.Window(WindowStage.KeepDry).ClosesAt!.Likely;
        shop.Tap(4, Did.Moved, toBay: "bay-2").Climate(4.02, 5, _ => (10, 50), "bay-2");
        Assert.True(shop.Window(WindowStage.KeepDry).ClosesAt!.Likely > warm + TimeSpan.FromHours(3));
        Assert.DoesNotContain(HoldKind.Unwatched, shop.HoldKinds);
    }

    /// <summary>From one cabin without a probe to another it was never watched; the hold had said "from the move on".</summary>
    [Fact]
    public void SeatMovedFromOneUnwatchedCabinToAnother_IsUnwatchedSinceItsFirstWipe()
    {
        TestShop shop = new TestShop(TwoRows, place: Place.Cabin).Steady(0, 1).Tap(1, Did.Applied).Tap(1.05, Did.Levelled).Steady(1.1, 4);
        Hold before = Assert.Single(shop.Holds, h => h.Kind == HoldKind.Unwatched);
        DateTimeOffset? latest = shop.Window(WindowStage.KeepDry).ClosesAt!.Latest;
        shop.Tap(4, Did.Moved, toBay: "bay-2").Steady(4.1, 5);
        Assert.Equal(before, Assert.Single(shop.Holds, h => h.Kind == HoldKind.Unwatched));
        Assert.Equal(latest, shop.Window(WindowStage.KeepDry).ClosesAt!.Latest);
    }

    [Fact]
    public void WheelOffTheCar_LiesInTheBaysAir()
    {
        TestShop shop = new TestShop(place: Place.OffCar).Steady(0, 1).Tap(1, Did.Applied).Tap(1.05, Did.Levelled).Steady(1.1, 40);
        Assert.True(shop.Report.Ruling.IsReady);
    }

    [Fact]
    public void WatchPoint_InTheCabin_TakesOnlyTheCabinsProbe()
    {
        BayPlan plan = new(
            "bay-1", 1013.25, "bay-1", [],
            [new ProbeMount(TestShop.Air("bay"), null, Place.Outside), new ProbeMount(TestShop.Air("seat"), null, Place.Cabin)]);
        ImmutableArray<ProbeLog> logs = [.. plan.Probes.Select(m => new ProbeLog(m.Probe, TestShop.Start).Believe(
            new RawReading("bay-1", m.Probe.Id, TestShop.Start, TestShop.Start, m.Probe.Id == "seat" ? 15 : 20, 50, null)))];
        Assert.Equal(288.15, Assert.Single(At(Place.Cabin).Air).Last.Kelvins, 9);
        Assert.Equal(293.15, Assert.Single(At(Place.Outside).Air).Last.Kelvins, 9);
        Assert.Empty(At(Place.EngineBay).Air);

        Watch At(Place place) => new WatchPoint("bay-1", place, Material.Fabric).WatchIn(BayState.Opening(plan, TestShop.Start) with { Logs = logs });
    }

    [Fact]
    public void OwnPanelProbe_CountsBeforeAColderOne_AndTheColdestWithoutOne()
    {
        BayPlan plan = new(
            "bay-1", 1013.25, "bay-1", [],
            [
                new ProbeMount(TestShop.Air("air"), null, Place.Outside),
                new ProbeMount(TestShop.Panel("steel"), Material.Steel, Place.Outside),
                new ProbeMount(TestShop.Panel("glass"), Material.Glass, Place.Outside),
            ]);
        ImmutableArray<ProbeLog> logs = [.. plan.Probes.Select(m => new ProbeLog(m.Probe, TestShop.Start).Believe(new RawReading(
            "bay-1", m.Probe.Id, TestShop.Start, TestShop.Start, m.Probe.Id == "air" ? 20 : null, m.Probe.Id == "air" ? 50 : null,
            m.Probe.Id == "steel" ? 18 : m.Probe.Id == "glass" ? 14 : null)))];
        Assert.Equal(291.15, PanelKelvins(Material.Steel), 9);
        Assert.Equal(287.15, PanelKelvins(Material.Plastic), 9);

        double PanelKelvins(Material material)
        {
            Watch watch = new WatchPoint("bay-1", Place.Outside, material).WatchIn(BayState.Opening(plan, TestShop.Start) with { Logs = logs });
            return watch.Over(TestShop.Start, TestShop.At(0.01), TestShop.At(0.01))!.Value.AtStart.PanelKelvins;
        }
    }

    [Fact]
    public void RemovedWindow_IsAbsent_WhereTheSheetIsSilent()
    {
        ProductSheet sheet = TestShop.Paint();
        TestShop shop = new TestShop(sheet with { Stages = [.. sheet.Stages.Where(s => s.Stage is Stage.KeepDry)] })
            .Steady(0, 1).Tap(1, Did.Applied).Steady(1.1, 20);
        Assert.Equal([WindowStage.KeepDry], shop.Report.Surfaces[0].Coats[0].Windows.Select(w => w.Stage));
        Assert.Equal(TestShop.At(13), shop.Window(WindowStage.KeepDry).ClosesAt!.Likely!.Value, TimeSpan.FromSeconds(1));
    }
}
