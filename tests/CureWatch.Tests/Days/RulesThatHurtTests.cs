using CureWatch.Curing;
using CureWatch.Handover;
using CureWatch.Products;
using CureWatch.Tests.Bays;
using CureWatch.TimeWindows;
using CureWatch.Warnings;
using static CureWatch.Curing.Did;

namespace CureWatch.Tests.Days;

/// <summary>Rules of the trade that cost a shop a day when they are missed. All of them: common practice, no source.</summary>
public class RulesThatHurtTests
{
    [Fact]
    public void LevelBy_TakesTheFasterClock_AndIsNotLaterInMoisterAir()
    {
        DateTimeOffset? before = null;
        for (double pct = 10; pct <= 99; pct += 1)
        {
            TestShop shop = new TestShop().Steady(0, 1, humidityPct: pct).Tap(1, Applied);
            Window window = shop.Window(WindowStage.LevelOff);
            Assert.False(window.ClosesAt!.Likely > before, $"later at {pct} % than a percent drier");
            Assert.False(window.ClosesAt.Earliest > window.ClosesAt.Likely);
            before = window.ClosesAt.Likely;
        }
    }

    [Fact]
    public void Wetted_WithoutDried_IsNeverReady_AndKeepDryRestartsFromDried()
    {
        TestShop shop = new TestShop().Steady(0, 1).Tap(1, Applied).Tap(1.05, Levelled).Steady(1.1, 5).Tap(5, Wetted);
        shop.Steady(5.1, 60);
        Assert.Null(shop.Report.Ruling.ReadyAt);
        Assert.Null(shop.Window(WindowStage.KeepDry).ClosesAt);
        Assert.Contains(HoldKind.Wetted, shop.HoldKinds);
        Assert.False(shop.Report.Ruling.IsReady);

        shop.Tap(60.1, Dried).Steady(60.2, 61);
        Assert.Equal(TestShop.At(72.1), shop.Window(WindowStage.KeepDry).ClosesAt!.Likely!.Value, TimeSpan.FromMinutes(1));
        shop.Tap(61, Inspected, found: Found.Clear).Steady(61.1, 90);
        Assert.True(shop.Report.Ruling.IsReady);
        Warning wetted = Assert.Single(shop.Warnings(WarningKind.Wetted));
        Assert.Equal(TestShop.At(60.1), wetted.ClearedAt);
    }

    [Fact]
    public void Wetted_WhereTheSheetSaysContinue_KeepDryGoesOn()
    {
        TestShop shop = new TestShop(TestShop.Paint(afterWetting: AfterWetting.Continue)).Steady(0, 1).Tap(1, Applied).Tap(1.05, Levelled);
        shop.Steady(1.1, 5).Tap(5, Wetted).Tap(5.5, Dried).Steady(5.6, 6);
        Assert.Equal(TestShop.At(13.05), shop.Window(WindowStage.KeepDry).ClosesAt!.Likely!.Value, TimeSpan.FromMinutes(1));
    }

    [Fact]
    public void CondensationInKeepDry_IsAHold_ThoughTheWarningCleared()
    {
        TestShop shop = new(probes: [TestShop.Air("air-1"), TestShop.Panel("panel-1")]);
        for (int minute = 0; minute < 40 * 60; minute++)
        {
            bool isWet = minute is >= 300 and < 320;
            shop.Read(minute / 60.0, 20, 60).ReadPanel(minute / 60.0, isWet ? 11 : 19);
            if (minute == 60)
            {
                shop.Tap(1, Applied).Tap(1.05, Levelled);
            }
        }

        Warning warning = Assert.Single(shop.Warnings(WarningKind.Condensing));
        Assert.NotNull(warning.ClearedAt);
        Assert.Equal([HoldKind.Condensation], shop.HoldKinds);
        shop.Tap(40, Inspected, found: Found.Clear);
        Assert.True(shop.Report.Ruling.IsReady);
    }

    [Fact]
    public void UntimelyTap_IsAcceptedHeldAndRecorded()
    {
        TestShop shop = new TestShop().Steady(0, 1).Tap(1, Applied).Steady(1.1, 2);
        Assert.Single(shop.Warnings(WarningKind.LevelMissed));
        shop.Tap(1 + (4 / 60.0), Levelled, reportedHour: 2.1).Steady(2.2, 30);
        Assert.Equal([HoldKind.ReportedLate], shop.HoldKinds);
        Assert.Equal(TestShop.At(13 + (4 / 60.0)), shop.Window(WindowStage.KeepDry).ClosesAt!.Likely!.Value, TimeSpan.FromMinutes(1));
        Assert.NotNull(shop.Warnings(WarningKind.LevelMissed).Single().ClearedAt);
        shop.Tap(30, Inspected, found: Found.HighSpot);
        Assert.Contains(HoldKind.ReportedLate, shop.HoldKinds);
        shop.Tap(30.1, Inspected, found: Found.Clear);
        Assert.True(shop.Report.Ruling.IsReady);
    }

    [Fact]
    public void CorrectedTap_IsAcceptedHeldAndRecordedTwice()
    {
        TestShop shop = new TestShop().Steady(0, 1).Tap(1, Applied).Tap(1.05, Levelled, id: "wrong").Steady(1.1, 3);
        shop.Tap(1.06, Levelled, reportedHour: 3, corrects: "wrong", id: "right").Steady(3.1, 30);
        Assert.Equal(["tap-0", "wrong", "right"], shop.Report.Told.Select(t => t.Id!));
        Assert.Equal([HoldKind.ReportedLate], shop.HoldKinds);
        Assert.Equal(TestShop.At(1.06), shop.Report.Surfaces[0].Coats[0].Coat.LevelledAt);
    }

    [Fact]
    public void CoatAppliedAgain_IsStillHeldByWhatHappenedToIt()
    {
        TestShop shop = new TestShop().Steady(0, 1).Tap(1, Applied).Tap(1.05, Levelled).Steady(1.1, 3).Tap(3, Wetted).Tap(3.1, Dried);
        shop.Steady(3.2, 4).Tap(4, Applied).Tap(4.05, Levelled).Steady(4.1, 30);
        Assert.Equal([HoldKind.Wetted], shop.HoldKinds);
        Assert.Equal(TestShop.At(16.05), shop.Window(WindowStage.KeepDry).ClosesAt!.Likely!.Value, TimeSpan.FromMinutes(1));
    }

    [Fact]
    public void CoatPolishedOff_IsHeldUntilFoundClear_ThenReady()
    {
        TestShop shop = new TestShop().Steady(0, 1).Tap(1, Applied).Tap(1.05, Levelled).Steady(1.1, 3).Tap(3, Reworked, how: How.PolishedOff);
        Assert.Equal([HoldKind.NotApplied], shop.HoldKinds);
        shop.Tap(3.5, Inspected, found: Found.Clear);
        Assert.True(shop.Report.Ruling.IsReady);
    }

    [Fact]
    public void WaterborneProduct_DriesSlowerInMoistAir()
    {
        Assert.True(Opens(Carrier.Water, 80) > Opens(Carrier.Water, 50));
        Assert.True(Opens(Carrier.Solvent, 80) < Opens(Carrier.Solvent, 50));

        static DateTimeOffset? Opens(Carrier carrier, double pct) =>
            new TestShop(TestShop.Paint(carrier)).Steady(0, 1, humidityPct: pct).Tap(1, Applied).Window(WindowStage.LevelOff).OpensAt.Likely;
    }

    [Fact]
    public void DressingLeftLonger_IsANote()
    {
        TestShop shop = new TestShop(TestShop.Paint(ifMissed: IfMissed.Note)).Steady(0, 1).Tap(1, Applied).Steady(1.1, 2).Tap(2, Levelled).Steady(2.1, 30);
        Assert.Empty(shop.Holds);
        Assert.True(shop.Report.Ruling.IsReady);
        Assert.Single(shop.Report.Ruling.Notes);
        Assert.Empty(shop.Warnings(WarningKind.LevelMissed));
        Assert.Equal(WindowState.Done, shop.Window(WindowStage.LevelOff).State);
    }
}
