using CureWatch.Curing;
using CureWatch.Handover;
using CureWatch.Tests.Bays;
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
}
