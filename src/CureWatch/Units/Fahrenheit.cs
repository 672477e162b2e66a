namespace CureWatch.Units;

/// <summary>Reads temperatures that were told in degrees Fahrenheit; nothing is reckoned in them.</summary>
public static class Fahrenheit
{
    private const double AtZeroCelsius = 32, PerCelsius = 1.8;

    /// <summary>The same temperature on the Celsius scale.</summary>
    /// <param name="fahrenheit">Temperature [°F], any.</param>
    /// <returns>Temperature [°C].</returns>
    /// <remarks>Equation: t = (F − 32)/1.8. Source (law): by definition. Edges: a difference of temperatures has no 32 to take off.</remarks>
    public static double ToCelsius(double fahrenheit) => (fahrenheit - AtZeroCelsius) / PerCelsius;
}
