using CureWatch.Bays;
using CureWatch.Panels;
using CureWatch.Readings;
using CureWatch.Reports;

namespace CureWatch.Tests.Bays;

/// <summary>What a probe repeats that is surely stuck is the present of nothing: not of the air, and not of what is foreseen or drawn from it.</summary>
public class StuckProbeAheadTests
{
    // The air counted as unknown, and the night was forecast from it all the same.
    [Fact]
    public void HumidityThatIsStuckBesideAMovingTemperature_FeedsNoForecastAndNoChart()
    {
        TestShop shop = new TestShop().Climate(0, 4, hour => (Swing(hour), 50 + (Math.Round(hour * 60) % 5)));
        Assert.NotNull(LookAhead.NightsOf(shop.Shop, Bay(shop)));
        shop.Climate(4, 11, hour => (Swing(hour), 50));

        Assert.Equal(Disbelief.Frozen, Bay(shop).Logs[0].Refused?.Why);
        Assert.Equal(shop.Shop.Now, Bay(shop).Logs[0].Air.Last.At);
        Assert.Null(BayAir.Of(new Present(shop.Shop, shop.Shop.Now), Bay(shop), Place.Outside));
        Assert.Null(LookAhead.NightsOf(shop.Shop, Bay(shop)));
        ClimateCourse course = ClimateCourse.Of(shop.Shop, "bay-1");
        Assert.Equal((null, true), (course.Past[^1].AirC, course.Ahead.IsEmpty));
        Assert.NotNull(course.Past.First(p => p.At >= TestShop.At(3)).AirC);
    }

    private static BayState Bay(TestShop shop) => shop.Shop.Bays["bay-1"];

    private static double Swing(double hour) => 20 + (5 * Math.Sin(2 * Math.PI * hour / 3));
}
