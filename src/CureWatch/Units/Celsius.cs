namespace CureWatch.Units;

/// <summary>A temperature on the Celsius scale.</summary>
/// <remarks>The default is 0 °C, a temperature like any other.</remarks>
public readonly record struct Celsius
{
    /// <summary>0 °C on the kelvin scale [K]. Source (law): the SI definition of the degree Celsius.</summary>
    public const double KelvinsAtZero = 273.15;

    /// <summary>Takes a temperature.</summary>
    /// <param name="degrees">Temperature [°C], −100 to 300: wider than any bay, panel or lamp.</param>
    /// <exception cref="ArgumentOutOfRangeException">The temperature is outside its range, NaN included.</exception>
    public Celsius(double degrees)
    {
        if (degrees is not (>= -100 and <= 300))
        {
            throw new ArgumentOutOfRangeException(nameof(degrees), degrees, "Expected -100 to 300 °C.");
        }

        Degrees = degrees;
    }

    /// <summary>The temperature [°C].</summary>
    public double Degrees { get; }

    /// <summary>The temperature [K].</summary>
    public double Kelvins => Degrees + KelvinsAtZero;

    /// <summary>The temperature that lies this many kelvins above absolute zero.</summary>
    /// <param name="kelvins">Absolute temperature [K].</param>
    /// <returns>The same temperature [°C].</returns>
    public static Celsius FromKelvins(double kelvins) => new(kelvins - KelvinsAtZero);

    /// <inheritdoc/>
    public override string ToString() => $"{Degrees:0.##} °C";
}
