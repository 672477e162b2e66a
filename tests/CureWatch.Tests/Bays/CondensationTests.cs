using CureWatch.Curing;
using CureWatch.Handover;
using CureWatch.Warnings;

namespace CureWatch.Tests.Bays;

public class CondensationTests
{
    [Theory]
    [InlineData(2)]
    [InlineData(7)]
    [InlineData(12.3)]
    [InlineData(18.6)]
    [InlineData(20)]
    [InlineData(24.9)]
    public void SaturatedAir_WithoutAPanelProbe_IsCondensation(double airC)
    {
        TestShop shop = new TestShop().Steady(0, 1, airC).Tap(1, Did.Applied).Steady(1, 1.2, airC).Steady(1.25, 1.5, airC, humidityPct: 100);
        Assert.Single(shop.Warnings(WarningKind.Condensing));
        Assert.Contains(HoldKind.Condensation, shop.HoldKinds);
    }

    // 2 °C for 20 °C is a slip of the thumb: taken back, or put right, it wets no bay.
    [Theory]
    [InlineData(Did.Withdrawn, null)]
    [InlineData(Did.Measured, 20.0)]
    public void SpotThatWasASlip_WasNoWater_OnceItIsTakenBack(Did did, double? panelC)
    {
        TestShop shop = WithASpotOf2C();
        Assert.Contains(HoldKind.Condensation, shop.HoldKinds);
        shop.Tap(1.31, did, corrects: "spot", panelC: panelC).Steady(1.35, 1.4);
        Assert.DoesNotContain(HoldKind.Condensation, shop.HoldKinds);
    }

    // Two hours later a note is added to it, or it is taken back: others have relied on it, and somebody has to look.
    [Theory]
    [InlineData(Did.Withdrawn, null)]
    [InlineData(Did.Measured, 2.5)]
    public void SpotThatIsTakenBackLater_HoldsUntilSomebodyLooks(Did did, double? panelC)
    {
        TestShop shop = WithASpotOf2C();
        shop.Steady(1.35, 3.3).Tap(1.3, did, corrects: "spot", panelC: panelC, reportedHour: 3.3);
        Assert.Contains(HoldKind.Condensation, shop.HoldKinds);
    }

    [Fact]
    public void AlmostSaturatedAir_WithoutAPanelProbe_IsNone()
    {
        TestShop shop = new TestShop().Steady(0, 1).Tap(1, Did.Applied).Steady(1, 1.2).Steady(1.25, 1.5, humidityPct: 99.9);
        Assert.DoesNotContain(HoldKind.Condensation, shop.HoldKinds);
    }

    [Fact]
    public void WetPanel_BesideAPanelProbeThatIsSilent_IsCondensation()
    {
        TestShop shop = WithTwoPanels(1, 2.5, 19);
        Assert.Empty(shop.Warnings(WarningKind.Condensing));
        shop = Panel(shop, 2.5, 3, 8);
        Assert.Single(shop.Warnings(WarningKind.Condensing));
        Assert.Contains(HoldKind.Condensation, shop.HoldKinds);
    }

    [Fact]
    public void DryPanel_BesideAPanelProbeThatFellSilentWet_DoesNotEndIt()
    {
        TestShop shop = Panel(WithTwoPanels(1, 1.2, 19).ReadPanel(1.2, 8, "panel-2"), 1.25, 3, 19);
        Assert.Null(Assert.Single(shop.Warnings(WarningKind.Condensing)).ClearedAt);
        Assert.Contains(HoldKind.Condensation, shop.Tap(3, Did.Inspected, found: Found.Clear).HoldKinds);
    }

    /// <summary>A coat that was levelled, and a spot by hand far below where the air condenses.</summary>
    private static TestShop WithASpotOf2C() => new TestShop().Steady(0, 1).Tap(1, Did.Applied).Steady(1, 1.2).Tap(1.2, Did.Levelled).Steady(1.25, 1.3)
        .Tap(1.3, Did.Measured, panelC: 2, id: "spot");

    /// <summary>Air at 20 °C and 60 %, dew point 12 °C; the second panel probe is heard at the start only.</summary>
    private static TestShop WithTwoPanels(double fromHour, double toHour, double panelC)
    {
        TestShop shop = new(probes: [TestShop.Air("air-1"), TestShop.Panel("panel-1"), TestShop.Panel("panel-2")]);
        shop.Read(0.9, 20, 60).ReadPanel(0.9, 19).ReadPanel(0.9, 19, "panel-2").Tap(0.95, Did.Applied).Tap(1, Did.Levelled);
        return Panel(shop, fromHour, toHour, panelC);
    }

    private static TestShop Panel(TestShop shop, double fromHour, double toHour, double panelC)
    {
        for (double hour = fromHour; hour < toHour; hour += 1 / 60.0)
        {
            shop.Read(hour, 20, 60).ReadPanel(hour, panelC);
        }

        return shop;
    }
}
