using CureWatch.Bays;
using CureWatch.Curing;
using CureWatch.Warnings;

namespace CureWatch.Tests.Bays;

/// <summary>Days of 19 to 33 °C, hottest at three in the afternoon; the sheet takes panels up to 30 °C.</summary>
public class HotPanelAheadTests
{
    // Nothing could ever raise it.
    [Fact]
    public void HotAfternoon_IsWarnedOfInTheMorning_ThoughNothingCoolsTheBay()
    {
        TestShop shop = Morning();
        Warning ahead = Assert.Single(shop.Warnings(WarningKind.PanelHotAhead));
        Assert.True(ahead.RaisedAt < TestShop.At(98.5) && ahead.Lead > TimeSpan.FromHours(1));
        Assert.EndsWith("Nothing this bay has cools it: keep the sun off it, and put nothing on it then.", ahead.Detail?.ToString(), StringComparison.Ordinal);
    }

    [Theory]
    [InlineData(20, true)]
    [InlineData(31, false)]
    public void Extraction_HelpsWhereItIsCoolerOutdoors(double outdoorC, bool helps)
    {
        Warning ahead = Assert.Single(Morning(outdoorC).Warnings(WarningKind.PanelHotAhead));
        Assert.Equal(helps, ahead.Detail?.ToString().Contains("Air with the extraction: outdoors it is", StringComparison.Ordinal));
    }

    private static TestShop Morning(double? outdoorC = null)
    {
        var outside = new CureWatch.Readings.Probe("outside", CureWatch.Readings.Measures.Outdoor, 0, 0, 0.5, 3, TimeSpan.FromMinutes(1));
        TestShop shop = outdoorC is null ? new() : new(probes: [TestShop.Air("air-1"), outside]);
        ShopPlan plan = shop.Shop.Plan;
        shop.Take(new Message.PlanChanged(
            plan with { Bays = [.. plan.Bays.Select(b => b with { Equipment = outdoorC is null ? [] : [Equipment.Extraction] })] }, TestShop.At(0)));
        return Days(shop, 0, 96, outdoorC).Tap(96, Did.Applied).Tap(96.05, Did.Levelled) is var coated ? Days(coated, 96.1, 98.5, outdoorC) : shop;
    }

    private static TestShop Days(TestShop shop, double from, double to, double? outdoorC)
    {
        for (double hour = from; hour <= to; hour += 1 / 60.0)
        {
            shop.Read(hour, 26 + (7 * Math.Cos(2 * Math.PI * (hour - 7) / 24)), 45);
            _ = outdoorC is { } c ? shop.Read(hour, c, 45, probe: "outside") : shop;
        }

        return shop;
    }
}
