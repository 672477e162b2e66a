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

    [Fact]
    public void AlmostSaturatedAir_WithoutAPanelProbe_IsNone()
    {
        TestShop shop = new TestShop().Steady(0, 1).Tap(1, Did.Applied).Steady(1, 1.2).Steady(1.25, 1.5, humidityPct: 99.9);
        Assert.DoesNotContain(HoldKind.Condensation, shop.HoldKinds);
    }
}
