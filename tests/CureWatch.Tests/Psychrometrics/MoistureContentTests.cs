using CureWatch.Psychrometrics;
using CureWatch.Units;

namespace CureWatch.Tests.Psychrometrics;

public class MoistureContentTests
{
    // psychrolib 1.1.1 (npm): humidity ratio of 20 °C / 50 %, 7 °C / 61 % and 45 °C / 90 % at the pressure shown.
    [Theory]
    [InlineData(20, 50, 101325, 7.2617)]
    [InlineData(7, 61, 100000, 3.8247)]
    [InlineData(45, 90, 85000, 70.317)]
    public void MixingRatio_IsThatOfAnIndependentLibrary(double airC, double humidityPct, double pressurePa, double gramsPerKilogram) =>
        Assert.Equal(
            1,
            MoistureContent.GramsPerKilogram(Vapour.PressurePa(new Celsius(airC), new RelativeHumidity(humidityPct)), pressurePa)
                / gramsPerKilogram,
            0.0005);

    [Fact]
    public void Vapour_AtOrAboveTheAirsPressure_IsRefused() =>
        Assert.Throws<ArgumentOutOfRangeException>(() => MoistureContent.GramsPerKilogram(60_000, 60_000));
}
