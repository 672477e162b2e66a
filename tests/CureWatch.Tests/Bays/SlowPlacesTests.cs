using System.Collections.Immutable;
using CureWatch.Bays;
using CureWatch.Curing;
using CureWatch.Handover;
using CureWatch.Planning;
using CureWatch.Products;
using CureWatch.Panels;
using CureWatch.TimeWindows;
using CureWatch.Warnings;

namespace CureWatch.Tests.Bays;

/// <summary>Bays colder or wetter than a sheet's only row. Common practice, no source: what is less known is ready no sooner.</summary>
public class SlowPlacesTests
{
    // The slowest row of the sheet is a warm one: out of a cold bay, a store that nobody measures makes no coat dry sooner than staying there would.
    [Theory]
    [InlineData(9)]
    [InlineData(14)]
    [InlineData(20)]
    public void CarMovedToWhereNobodyMeasures_IsReadyNoSooner(double airC)
    {
        TestShop Levelled()
        {
            var shop = new TestShop(null, 1, 1, Place.Outside, null, TestShop.Air("air-1"), TestShop.Panel("panel-1"));
            for (int minute = 0; minute <= 180; minute++)
            {
                shop.Read(minute / 60.0, airC, 45).ReadPanel(minute / 60.0, airC);
            }

            return shop.Tap(1, Did.Applied).Tap(1.2, Did.Levelled);
        }

        Window stays = Levelled().Window(WindowStage.KeepDry), leaves = Levelled().Tap(3, Did.Moved, toBay: "store").Window(WindowStage.KeepDry);
        Assert.True(leaves.ClosesAt!.Latest >= stays.ClosesAt!.Latest - TimeSpan.FromMinutes(30), $"{stays.ClosesAt.Latest:HH:mm} {leaves.ClosesAt.Latest:HH:mm}");
        Assert.True(leaves.ClosesAt.Latest > leaves.ClosesAt.Likely);
    }

    // 32 °C and 84 %: the time for another layer may be over before anybody can rely on its having come.
    [Fact]
    public void RecoatThatIsTooShortToTime_IsSaidSo_AndWarnsBeforeItIsMissed()
    {
        ProductSheet paint = TestShop.Paint();
        ImmutableArray<SheetStage> brief = [.. paint.Stages.Select(s => s.Stage == Stage.RecoatBy ? TestShop.Row(Stage.RecoatBy, Mechanism.Cure, 2) : s)];
        TestShop shop = new TestShop(paint with { Limits = paint.Limits with { HumidityMaxPct = 90, PanelMaxC = 36 }, Stages = brief }, layers: 2)
            .Steady(0, 1, 32, 84).Tap(0.98, Did.Applied).Tap(1, Did.Levelled).Steady(1, 1.1, 32, 84);
        Window recoat = shop.Window(WindowStage.Recoat);
        Assert.True(recoat.ClosesAt!.Earliest < recoat.OpensAt.Latest, "the climate leaves time enough");

        StartReason reason = Assert.Single(StartReport.Of(shop.Shop, "job-1")!.Decision.Answers[0].Reasons, r => r.Text.ToString().Contains("another layer is too short to time", StringComparison.Ordinal));
        Assert.NotEqual(StartWeight.Stops, reason.Weight);
        shop.Steady(1.1, 3, 32, 84);
        Warning closing = Assert.Single(shop.Warnings(WarningKind.RecoatClosing)), missed = Assert.Single(shop.Warnings(WarningKind.RecoatMissed));
        Assert.True(closing.RaisedAt < missed.RaisedAt);
    }

    // In desert air an evaporating clock stands still by the slow bound; what was levelled waits for it no more.
    [Fact]
    public void DressingThatWasLevelled_IsLookedAtNoMore_HoweverDryTheAir()
    {
        ProductSheet paint = TestShop.Paint();
        TestShop shop = new TestShop(paint with { Stages = [.. paint.Stages.Where(s => s.Stage is Stage.Flash or Stage.LevelBy)] })
            .Steady(0, 1, 30, 8).Tap(0.98, Did.Applied).Tap(1, Did.Levelled).Steady(1, 2, 30, 8);
        Assert.Empty(shop.Shop.Bays["bay-1"].Open);
    }

    // A lamp counts as it was told: told hours later, or on another reading of the panel, somebody has to look first.
    [Theory]
    [InlineData(5.2, false)]
    [InlineData(9, true)]
    public void LampToldLate_HoldsTheCar_WhereTheSheetCreditsIt(double reportedHour, bool isHeld)
    {
        foreach (LampBand[] bands in new[] { [], new[] { new LampBand(55, 65, 0.2, TimeSpan.Zero, 20, [Stage.KeepDry]) } })
        {
            TestShop shop = new TestShop(TestShop.Paint() with { Lamp = [.. bands] }).Steady(0, 1).Tap(0.98, Did.Applied).Tap(1, Did.Levelled).Steady(1, reportedHour)
                .Tap(5, Did.LampOn, reportedHour: reportedHour).Tap(5.1, Did.Measured, panelC: 60, reportedHour: reportedHour).Tap(5.2, Did.LampOff, reportedHour: reportedHour);
            Assert.Equal(isHeld && bands.Length > 0 ? 3 : 0, shop.HoldKinds.Count(k => k == HoldKind.ReportedLate));
            shop.Tap(reportedHour, Did.Inspected, found: Found.Clear);
            Assert.DoesNotContain(HoldKind.ReportedLate, shop.HoldKinds);
        }
    }
}
