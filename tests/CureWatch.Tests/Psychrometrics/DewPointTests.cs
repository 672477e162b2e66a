using CureWatch.Psychrometrics;
using CureWatch.Units;

namespace CureWatch.Tests.Psychrometrics;

public class DewPointTests
{
    [Theory]
    [InlineData(-60.1)]
    [InlineData(80.1)]
    public void Air_OutsideTheRange_IsRefused(double airC) =>
        Assert.Throws<ArgumentOutOfRangeException>(() => DewPoint.Of(new Celsius(airC), new RelativeHumidity(50)));

    [Fact]
    public void Humidity_LeftAtItsDefault_IsRefused() =>
        Assert.Throws<ArgumentOutOfRangeException>(() => DewPoint.Of(new Celsius(20), default));

    [Fact]
    public void Humidity_UnderOnePercent_IsTakenAsOneAndTold()
    {
        Assert.Equal(DewPoint.Of(new Celsius(20), new RelativeHumidity(1)), DewPoint.Of(new Celsius(20), new RelativeHumidity(0.2)));
        Assert.True(ClimateRange.RaisesHumidity(new RelativeHumidity(0.2)));
        Assert.False(ClimateRange.RaisesHumidity(new RelativeHumidity(1)));
    }

    [Theory]
    [InlineData(0)]
    [InlineData(-1)]
    [InlineData(double.NaN)]
    [InlineData(double.PositiveInfinity)]
    public void Pressure_OutsideTheRange_IsRefusedByAllThree(double pascals)
    {
        Assert.Throws<ArgumentOutOfRangeException>(() => DewPoint.OfPressure(pascals));
        Assert.Throws<ArgumentOutOfRangeException>(() => FrostPoint.OfPressure(pascals));
        Assert.Throws<ArgumentOutOfRangeException>(() => CondensationTemperature.OfPressure(pascals));
    }

    [Fact]
    public void FrostPoint_OfSaturatedAirAtZero_IsNone() => Assert.Null(FrostPoint.Of(new Celsius(0), new RelativeHumidity(100)));

    [Fact]
    public void FrostPoint_JustUnderADewPointOfZero_IsHeldAtZero() =>
        Assert.Equal(0, FrostPoint.Of(new Celsius(0), new RelativeHumidity(99.999))?.Degrees);
}
