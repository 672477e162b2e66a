using CureWatch.Psychrometrics;
using CureWatch.Units;

namespace CureWatch.Tests.Psychrometrics;

public class SaturationPressureTests
{
    // IAPWS-95 by python3-iapws 1.5.2, supercooled water below 0 °C included. Trusted to all digits; Sonntag's fit keeps 0.03 %
    // down to -10 °C and 0.11 % at -20 °C.
    [Theory]
    [InlineData(-20, 125.458)]
    [InlineData(-10, 286.443)]
    [InlineData(0.01, 611.655)]
    [InlineData(5, 872.575)]
    [InlineData(10, 1228.199)]
    [InlineData(20, 2339.318)]
    [InlineData(25, 3169.929)]
    [InlineData(40, 7384.938)]
    [InlineData(60, 19946.43)]
    // ASHRAE Fundamentals 2017, ch. 1, table 3. Trusted to 0.03 %.
    [InlineData(5.0, 872.6)]
    [InlineData(25.0, 3169.7)]
    [InlineData(50, 12351.3)]
    public void OverWater_IsThePublishedPressure(double celsius, double pascals) =>
        Assert.Equal(1, SaturationPressure.OverWaterPa(Kelvins(celsius)) / pascals, celsius < -10 ? 0.0011 : 0.0003);

    // IAPWS R14-08 by python3-iapws 1.5.2, and ASHRAE Fundamentals 2017, ch. 1, table 3, which agree.
    [Theory]
    [InlineData(-5, 401.741)]
    [InlineData(-10, 259.874)]
    [InlineData(-20, 103.239)]
    public void OverIce_IsThePublishedPressure(double celsius, double pascals) =>
        Assert.Equal(1, SaturationPressure.OverIcePa(Kelvins(celsius)) / pascals, 0.0007);

    [Theory]
    [InlineData(-40)]
    [InlineData(0)]
    [InlineData(20)]
    [InlineData(80)]
    public void Slopes_AreTheDerivativesOfTheLogarithms(double celsius)
    {
        const double Step = 0.01;
        double kelvins = Kelvins(celsius);
        double water = (SaturationPressure.LnOverWater(kelvins + Step) - SaturationPressure.LnOverWater(kelvins - Step)) / (2 * Step);
        double ice = (SaturationPressure.LnOverIce(kelvins + Step) - SaturationPressure.LnOverIce(kelvins - Step)) / (2 * Step);
        Assert.Equal(water, SaturationPressure.WaterSlope(kelvins), 1e-8);
        Assert.Equal(ice, SaturationPressure.IceSlope(kelvins), 1e-8);
    }

    private static double Kelvins(double celsius) => new Celsius(celsius).Kelvins;
}
