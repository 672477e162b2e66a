using CureWatch.Units;

namespace CureWatch.Tests.Units;

public class CelsiusTests
{
    [Theory]
    [InlineData(-100.1)]
    [InlineData(300.1)]
    [InlineData(double.NaN)]
    [InlineData(double.PositiveInfinity)]
    public void Temperature_OutsideItsRange_IsRefused(double degrees) =>
        Assert.Throws<ArgumentOutOfRangeException>(() => new Celsius(degrees));

    [Fact]
    public void Temperature_ThereAndBackToKelvins_IsTheSame() =>
        Assert.Equal(21.5, Celsius.FromKelvins(new Celsius(21.5).Kelvins).Degrees, 12);
}
