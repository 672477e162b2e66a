using CureWatch.Psychrometrics;
using CureWatch.Units;

namespace CureWatch.Tests.Psychrometrics;

public class WetBulbTests
{
    // psychrolib 1.1.1 (npm), whose own halving stops at 0.001 K. Below 0 °C it counts humidity over ice, so there it was given the mixing
    // ratio of our air instead; above, its saturation formula (Hyland-Wexler) adds up to 0.002 K.
    [Theory]
    [InlineData(20, 50, 101325, 13.783)]
    [InlineData(25, 60, 101325, 19.471)]
    [InlineData(30, 80, 101325, 27.091)]
    [InlineData(7, 61, 100000, 3.926)]
    [InlineData(40, 15, 101325, 20.356)]
    [InlineData(45, 90, 85000, 43.176)]
    [InlineData(5, 95, 101325, 4.652)]
    [InlineData(15, 5, 70000, 1.610)]
    [InlineData(2, 30, 101325, -2.756)]
    [InlineData(0.5, 90, 101325, -0.111)]
    [InlineData(-5, 60, 101325, -6.654)]
    [InlineData(-20, 50, 90000, -20.664)]
    public void WetBulb_IsThatOfAnIndependentLibrary(double airC, double humidityPct, double pressurePa, double wetBulbC) =>
        Assert.Equal(wetBulbC, WetBulb.Of(new Celsius(airC), new RelativeHumidity(humidityPct), pressurePa).Degrees, 0.0025);

    // ASHRAE Fundamentals 2017, ch. 1, example 1: 40 °C dry, 20 °C wet bulb -> W 0.0065, dew point 7 °C, 14 %, read off a chart: so to the
    // last digit it gives.
    [Fact]
    public void DryAndWetBulb_OfThePublishedExample_GiveItsHumidity()
    {
        var air = new Celsius(40);
        double humidityPct = 1;
        while (WetBulb.Of(air, new RelativeHumidity(humidityPct), ClimateRange.StandardPressurePa).Degrees < 20)
        {
            humidityPct += 0.01;
        }

        var climate = new BayClimate(air, new RelativeHumidity(humidityPct));
        Assert.Equal(14, humidityPct, 0.5);
        Assert.Equal(6.5, climate.MixingRatioGramsPerKilogram, 0.1);
        Assert.Equal(7, climate.DewPoint.Degrees, 0.5);
    }

    [Fact]
    public void SaturatedAir_AHairAboveZero_IsItsOwnWetBulb() => Assert.Equal(
        1e-70, WetBulb.Of(new Celsius(1e-70), new RelativeHumidity(100), ClimateRange.StandardPressurePa).Degrees);

    [Theory]
    [InlineData(49_999)]
    [InlineData(110_001)]
    [InlineData(double.NaN)]
    public void Pressure_OutsideTheRange_IsRefused(double pressurePa) =>
        Assert.Throws<ArgumentOutOfRangeException>(() => WetBulb.Of(new Celsius(20), new RelativeHumidity(50), pressurePa));
}
