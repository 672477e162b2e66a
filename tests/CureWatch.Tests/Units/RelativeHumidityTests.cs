using CureWatch.Units;

namespace CureWatch.Tests.Units;

public class RelativeHumidityTests
{
    [Theory]
    [InlineData(0)]
    [InlineData(-1)]
    [InlineData(100.001)]
    [InlineData(double.NaN)]
    public void Humidity_OutsideItsRange_IsRefused(double percent) =>
        Assert.Throws<ArgumentOutOfRangeException>(() => new RelativeHumidity(percent));

    [Fact]
    public void Humidity_HasAFraction() => Assert.Equal(0.55, new RelativeHumidity(55).Fraction, 12);
}
