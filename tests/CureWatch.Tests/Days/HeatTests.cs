using CureWatch.Curing;
using CureWatch.Handover;
using CureWatch.Tests.Bays;
using CureWatch.TimeWindows;
using CureWatch.Warnings;

namespace CureWatch.Tests.Days;

/// <summary>The hottest part of a surface decides whether it was too hot. Common practice, no source.</summary>
public class HeatTests
{
    [Fact]
    public void OneHotPanelAmongTwo_IsAWarningAndAHold()
    {
        TestShop shop = new(probes: [TestShop.Air("air-1"), TestShop.Panel("panel-1"), TestShop.Panel("panel-2")]);
        for (int minute = 0; minute < 180; minute++)
        {
            double hour = minute / 60.0;
            shop.Read(hour, 20, 50).ReadPanel(hour, 20).ReadPanel(hour, minute is > 100 and < 130 ? 75 : 20, "panel-2");
            if (minute == 60)
            {
                shop.Tap(1, Did.Applied).Tap(1.05, Did.Levelled);
            }
        }

        Assert.Single(shop.Warnings(WarningKind.PanelHot));
        Assert.Contains(HoldKind.Heat, shop.HoldKinds);
    }

    // People look for what 75 °C did, not for what the last reading above the limit says.
    [Fact]
    public void AHold_NamesTheHottestReading_AndWhenItWas()
    {
        TestShop shop = new(probes: [TestShop.Air("air-1"), TestShop.Panel("panel-1")]);
        shop.Steady(0, 1).Tap(1, Did.Applied).Tap(1.05, Did.Levelled);
        foreach ((double hour, double c) in new[] { (1.5, 20.0), (2, 72), (2.25, 75.5), (2.5, 71), (2.75, 30) })
        {
            shop.Read(hour, 20, 50).ReadPanel(hour, c);
        }

        Hold hold = Assert.Single(shop.Holds, h => h.Kind == HoldKind.Heat);
        Assert.StartsWith("75.5 °C Mon 4 May 10:15,", hold.Text.ToString(), StringComparison.Ordinal);
    }

    // While a lamp burns, the only panel probe tells of the surface under it and of nothing else.
    [Fact]
    public void SurfaceUnderALamp_PastItsLimit_IsAHold_ThoughItsProbeIsTheOnlyOne()
    {
        TestShop shop = new(TestShop.Paint(heatMaxC: 60), probes: [TestShop.Air("air-1"), TestShop.Panel("bonnet")]);
        for (int minute = 0; minute < 240; minute++)
        {
            double hour = minute / 60.0;
            double panelC = minute is > 150 and < 190 ? Math.Min(66, 20 + (3 * (minute - 150))) : 20;
            shop.Read(hour, 20, 50).ReadPanel(hour, panelC, "bonnet");
            _ = minute switch
            {
                60 => shop.Tap(1, Did.Applied).Tap(1.05, Did.Levelled),
                150 => shop.Tap(2.5, Did.LampOn),
                190 => shop.Tap(190 / 60.0, Did.LampOff),
                _ => shop,
            };
        }

        Assert.Contains(HoldKind.Heat, shop.HoldKinds);
        Assert.True(Assert.Single(shop.Warnings(WarningKind.LampOverLimit)).Lead > TimeSpan.Zero);
    }

    // A coat that is dry for good is warned of neither water nor air; what a lamp does to it is told all the same, ahead and once it has happened.
    [Fact]
    public void DryCoat_UnderALamp_IsStillWarnedOfItsHeatLimit()
    {
        TestShop shop = new(TestShop.Paint(heatMaxC: 60), probes: [TestShop.Air("air-1"), TestShop.Panel("bonnet")]);
        for (int minute = 0; minute < 41 * 60; minute++)
        {
            double hour = minute / 60.0;
            double panelC = minute is > 2400 and < 2440 ? Math.Min(66, 20 + (3 * (minute - 2400))) : 20;
            shop.Read(hour, 20, 50).ReadPanel(hour, panelC, "bonnet");
            _ = minute switch
            {
                60 => shop.Tap(1, Did.Applied).Tap(1.05, Did.Levelled),
                2400 => shop.Tap(40, Did.LampOn),
                2440 => shop.Tap(2440 / 60.0, Did.LampOff),
                _ => shop,
            };
        }

        Assert.True(shop.Window(WindowStage.KeepDry).ClosesAt!.Latest < TestShop.At(39), "it is dry");
        Assert.True(Assert.Single(shop.Warnings(WarningKind.LampOverLimit)).Lead > TimeSpan.Zero);
        Assert.Contains(HoldKind.Heat, shop.HoldKinds);
    }
}
