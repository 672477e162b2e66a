using CureWatch.Bays;
using CureWatch.Curing;
using CureWatch.Warnings;

namespace CureWatch.Tests.Bays;

/// <summary>What is heated is warned of once, from the reading that foretells it to the one that shows it well below its limit.</summary>
public class HeatLooksTests
{
    private const int On = 65, Off = 100;

    [Theory]
    [InlineData(72, 5, 1)]
    [InlineData(65, 5, 1)] // foretold well below its limit, by a probe whose noise says the next minute that there is time yet
    [InlineData(95, 12, 5)] // what has a body behind it cools slower than its material, and its probe speaks seldom
    [InlineData(120, 4, 1)]
    public void OneLamp_IsOneWarning_RaisedBeforeTheLimit_AndOverOnceItIsReadWellBelow(double finalC, double timeConstant, int every)
    {
        double PanelC(double minute) => minute <= On ? 20
            : minute <= Off ? finalC - ((finalC - 20) * Math.Exp((On - minute) / timeConstant))
            : 20 + ((PanelC(Off) - 20) * Math.Exp((Off - minute) / timeConstant));
        var shop = new TestShop(TestShop.Paint(heatMaxC: 60), probes: [TestShop.Air("air-1"), TestShop.Panel("bonnet") with { Every = TimeSpan.FromMinutes(every) }]);
        for (int minute = 0; minute <= 180; minute++)
        {
            shop.Read(minute / 60.0, 20, 50);
            _ = minute switch
            {
                2 => shop.Tap(minute / 60.0, Did.Applied),
                5 => shop.Tap(minute / 60.0, Did.Levelled),
                On => shop.Tap(minute / 60.0, Did.LampOn),
                Off => shop.Tap(minute / 60.0, Did.LampOff),
                _ => shop,
            };
            _ = minute % every == 0 ? shop.ReadPanel((minute + 0.1) / 60, Math.Round(PanelC(minute + 0.1) + (minute % 2 == 0 ? 0.3 : -0.3), 1), "bonnet") : shop;
        }

        DateTimeOffset raised = Assert.Single(shop.Happened.OfType<ShopEvent.WarningRaised>(), e => e.Warning.Subject.Kind == WarningKind.LampOverLimit).Warning.RaisedAt;
        DateTimeOffset cleared = Assert.Single(shop.Happened.OfType<ShopEvent.WarningCleared>(), e => e.Subject.Kind == WarningKind.LampOverLimit).At;
        Assert.True(PanelC((raised - TestShop.Start).TotalMinutes) < 60);
        Assert.True(PanelC((cleared - TestShop.Start).TotalMinutes) <= 60 - HeatAhead.CooledK);
    }

    // Nothing looked at a surface without a coat again: its warning stood until somebody measured it once more.
    [Fact]
    public void SurfaceWithoutACoat_ThatHadTimeToCool_IsNotWarnedOfAnyMore()
    {
        TestShop shop = new TestShop(TestShop.Paint(heatMaxC: 60)).Steady(0, 1).Tap(1, Did.LampOn).Steady(1.02, 1.1).Tap(1.1, Did.Measured, panelC: 66);
        Assert.True(Stands(shop));
        Assert.False(Stands(shop.Tap(1.12, Did.LampOff).Steady(1.13, 2)));
    }

    [Fact]
    public void HotSurface_ThatIsMovedToWhereNobodyMeasures_LeavesItsLampBehind()
    {
        TestShop shop = new TestShop(TestShop.Paint(heatMaxC: 60)).Steady(0, 1).Tap(1, Did.Applied).Tap(1.05, Did.Levelled).Tap(1.1, Did.LampOn).Steady(1.12, 1.2)
            .Tap(1.2, Did.Measured, panelC: 66);
        Assert.True(Stands(shop));
        Assert.False(Stands(shop.Tap(1.3, Did.Moved, toBay: "outside")));
        Assert.True(Stands(shop.Tap(1.4, Did.Measured, panelC: 66))); // in the sun
    }

    private static bool Stands(TestShop shop) => shop.Shop.Standing.Keys.Any(s => s.Kind == WarningKind.LampOverLimit);

    /// <summary>A lamp keeps a surface as warm as it is; that its spots are alike there tells nothing of how slowly it cools.</summary>
    [Fact]
    public void SpotsUnderALamp_TellNoTimeConstant()
    {
        TestShop shop = new TestShop().Steady(0, 1).Tap(1, Did.LampOn);
        for (int minute = 65; minute < 90; minute += 5)
        {
            shop.Read(minute / 60.0, 20, 50).Tap(minute / 60.0, Did.Measured, panelC: minute % 10 == 0 ? 60 : 59.8);
        }

        shop.Tap(1.5, Did.LampOff).Steady(1.52, 2.5);
        SurfaceStory story = shop.Shop.Jobs["job-1"].Stories[0];
        var present = new Present(shop.Shop, shop.Shop.Now);
        Assert.Equal(293.15, present.ExposureAt(present.StaysOf(shop.Shop.Jobs["job-1"].Job, story)[^1].Point!)!.Value.PanelKelvins, 0.1);
    }
}
