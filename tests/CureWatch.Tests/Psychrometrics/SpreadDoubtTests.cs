using CureWatch.Psychrometrics;
using CureWatch.Units;

namespace CureWatch.Tests.Psychrometrics;

public class SpreadDoubtTests
{
    // A panel as warm as its spread: 100,000 draws of every probe's error from between its limits, dew points by the Magnus form of
    // WMO-No. 8 (within 0.05 K of ours, and only its differences count). Where one limit outweighs the others, the normal law is off by up to 0.04.
    [Theory]
    [InlineData(20, 60, 13, 0.3, 2, 0.5)]
    [InlineData(20, 60, 12.5, 1, 5, 1)]
    [InlineData(8, 85, 6.5, 0.5, 3, 1)]
    [InlineData(25, 40, 11, 0.5, 3, 0.0)]
    public void Chance_IsThatOfDrawsFromBetweenTheLimits(double airC, double humidityPct, double panelC, double airLimit, double humidityLimit, double panelLimit)
    {
        var climate = new BayClimate(new Celsius(airC), new RelativeHumidity(humidityPct), new Celsius(panelC));
        SpreadDoubt doubt = SpreadDoubt.Of(climate, airLimit, humidityLimit, panelLimit)!;
        var random = new Random(20260504);
        double centre = Magnus(airC, humidityPct) - climate.DewPoint.Degrees;
        int wet = 0;
        const int Draws = 100_000;
        for (int i = 0; i < Draws; i++)
        {
            double dew = Magnus(airC + Within(airLimit), humidityPct + Within(humidityLimit)) - centre;
            wet += panelC + Within(panelLimit) <= dew ? 1 : 0;
        }

        Assert.Equal(wet / (double)Draws, doubt.CondensationChance, 0.04);

        double Within(double limit) => limit * ((2 * random.NextDouble()) - 1);
    }

    [Fact]
    public void Chance_OfPerfectProbes_IsSure()
    {
        var dry = new BayClimate(new Celsius(20), new RelativeHumidity(50), new Celsius(9.3));
        var wet = new BayClimate(new Celsius(20), new RelativeHumidity(50), new Celsius(9.2));
        Assert.Equal((0.0, 1.0), (SpreadDoubt.Of(dry, 0, 0, 0)!.CondensationChance, SpreadDoubt.Of(wet, 0, 0, 0)!.CondensationChance));
    }

    [Fact]
    public void Doubt_OfAPanelTakenAsTheAir_IsAKelvinAtLeast()
    {
        var climate = new BayClimate(new Celsius(20), new RelativeHumidity(50), new Celsius(20));
        Assert.InRange(SpreadDoubt.Of(climate, 0.3, 2, null)!.StandardKelvins, 1, 1.2);
        Assert.Null(SpreadDoubt.Of(new BayClimate(new Celsius(20), new RelativeHumidity(50)), 0.3, 2, null));
    }

    private static double Magnus(double c, double pct)
    {
        double x = Math.Log(pct / 100) + (17.62 * c / (243.12 + c));
        return 243.12 * x / (17.62 - x);
    }
}
