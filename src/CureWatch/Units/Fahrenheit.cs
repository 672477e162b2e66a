namespace CureWatch.Units;

/// <summary>Reads and says temperatures in degrees Fahrenheit; nothing is reckoned in them.</summary>
public static class Fahrenheit
{
    /// <summary>How many degrees Fahrenheit a kelvin is. Source (law): by definition.</summary>
    public const double PerKelvin = 1.8;

    /// <summary>What 0 °C is [°F]. Source (law): by definition.</summary>
    public const double AtZeroCelsius = 32;

    /// <summary>The same temperature on the Celsius scale.</summary>
    /// <param name="fahrenheit">Temperature [°F], any.</param>
    /// <returns>Temperature [°C].</returns>
    /// <remarks>
    /// Equation: t = (F − 32)/1.8. Source (law): by definition. Edges: of a difference no 32 is taken off, see <see cref="PerKelvin"/>.
    /// </remarks>
    public static double ToCelsius(double fahrenheit) => (fahrenheit - AtZeroCelsius) / PerKelvin;

    /// <summary>The same temperature on the Fahrenheit scale.</summary>
    /// <param name="celsius">Temperature [°C], any.</param>
    /// <returns>Temperature [°F].</returns>
    /// <remarks>Equation: F = 1.8·t + 32. Source (law): by definition. Edges: to a difference no 32 is added, see <see cref="PerKelvin"/>.</remarks>
    public static double FromCelsius(double celsius) => (PerKelvin * celsius) + AtZeroCelsius;
}
