using CureWatch.Bays;
using CureWatch.Curing;

namespace CureWatch.Tests.Bays;

/// <summary>What future times assume is what they were reckoned with.</summary>
public class ClimateAheadTests
{
    [Theory]
    [InlineData(24, "held as it was measured last in bay-1")]
    [InlineData((4 * 24) + 3, "forecast from what was measured in bay-1 over the last 4 days")]
    public void Climate_IsForecastOnceTheBayHasACourse(double hours, string says)
    {
        TestShop shop = new TestShop().Steady(0, hours);
        Assert.Equal(shop.Shop.Bays["bay-1"].Forecaster.Kelvins.Course is not null, says.StartsWith("forecast", StringComparison.Ordinal));
        Assert.Contains(says, shop.Report.Assumes.ToString(), StringComparison.Ordinal);
        Assert.Contains(shop.Report.Assumes, StartReport.Of(shop.Shop, "job-1").Decision.Assumed);
    }

    [Fact]
    public void Climate_WhereNobodyMeasures_IsSaidToBeSo()
    {
        Assert.StartsWith("Nobody has measured", new TestShop().Report.Assumes.ToString(), StringComparison.Ordinal);
        TestShop stored = new TestShop().Steady(0, 100).Tap(100, Did.Moved, toBay: "store");
        Assert.EndsWith("nobody measures where the car is now.", stored.Report.Assumes.ToString(), StringComparison.Ordinal);
    }
}
