using CureWatch.Bays;
using CureWatch.Curing;
using CureWatch.TimeWindows;
using CureWatch.Warnings;

namespace CureWatch.Tests.Bays;

/// <summary>Once a keep-dry is over, water and air beyond the sheet spoil nothing any more: a car that stays over the weekend is no alarm. Common practice, no source.</summary>
public class DryCoatTests
{
    private static readonly WarningKind[] OfWaterAndAir =
    [
        WarningKind.Condensing, WarningKind.HumidityHigh, WarningKind.CureStalled, WarningKind.PanelCold,
        WarningKind.CondensingAhead, WarningKind.HumidityHighAhead, WarningKind.CureStalledAhead, WarningKind.PanelColdAhead,
    ];

    [Fact]
    public void CoatThatIsDry_IsWarnedOfNeitherWaterNorAir()
    {
        TestShop shop = Dry();
        Assert.Equal(WindowState.Done, shop.Window(WindowStage.KeepDry).State);
        Assert.NotEqual(WindowState.Done, shop.Window(WindowStage.FullCure).State);
        DateTimeOffset dry = shop.Shop.Now;

        shop.Steady(DryHour, DryHour + 4, 6, 99);

        Assert.DoesNotContain(shop.Shop.Warnings.Values, w => w.RaisedAt > dry && OfWaterAndAir.Contains(w.Subject.Kind));
        Assert.Equal(TonightVerdict.NothingOpen, TonightReport.Of(shop.Shop, "bay-1").Verdict);
    }

    // What was wrong while it was wet is over with it.
    [Fact]
    public void WarningThatStandsAsACoatGetsDry_IsOver()
    {
        TestShop shop = new TestShop().Steady(0, 1).Tap(1, Did.Applied).Steady(1, 1.05).Tap(1.05, Did.Levelled).Steady(1.05, 13).Steady(13, 48, 20, 80);
        Assert.Equal(WindowState.Done, shop.Window(WindowStage.KeepDry).State);
        Assert.NotEmpty(shop.Warnings(WarningKind.HumidityHigh));
        Assert.DoesNotContain(shop.Shop.Standing.Keys, s => s.Kind == WarningKind.HumidityHigh);
    }

    private const double DryHour = 60;

    private static TestShop Dry() => new TestShop().Steady(0, 1).Tap(1, Did.Applied).Steady(1, 1.05).Tap(1.05, Did.Levelled).Steady(1.05, DryHour);
}
