using CureWatch.Units;

namespace CureWatch.Tests.Units;

/// <summary>The scale by its fixed points: ice, steam, and where both scales say the same; 72 °F is room temperature of every textbook.</summary>
public class FahrenheitTests
{
    [Theory]
    [InlineData(32, 0)]
    [InlineData(212, 100)]
    [InlineData(-40, -40)]
    [InlineData(72, 22.2222222)]
    public void ToCelsius_AtFixedPoints(double fahrenheit, double celsius) => Assert.Equal(celsius, Fahrenheit.ToCelsius(fahrenheit), 1e-6);
}
