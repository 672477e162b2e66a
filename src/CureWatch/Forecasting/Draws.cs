namespace CureWatch.Forecasting;

/// <summary>Standard normal numbers that always are the same, spread evenly: of temperature, moisture and panel.</summary>
/// <remarks>
/// Equation: Box and Muller's transform of Halton's sequence in bases 2, 3, 5 and 7. Source (law): Halton 1960, Numer. Math. 2, 84–90; Box and Muller 1958,
/// from memory. Source (choice): air that is warmer than expected is moister too, correlation 0.5.
/// </remarks>
internal static class Draws
{
    private const int Count = 64;
    private const double Correlation = 0.5;

    public static (double Kelvins, double Ln, double Panel)[] All { get; } = [.. Enumerable.Range(1, Count).Select(Of)];

    private static (double Kelvins, double Ln, double Panel) Of(int index)
    {
        (double sine, double cosine) = Math.SinCos(2 * Math.PI * Halton(index, 3));
        double radius = Math.Sqrt(-2 * Math.Log(Halton(index, 2)));
        double panel = Math.Sqrt(-2 * Math.Log(Halton(index, 5))) * Math.Cos(2 * Math.PI * Halton(index, 7));
        (double kelvins, double other) = (radius * cosine, radius * sine);
        return (kelvins, (Correlation * kelvins) + (Math.Sqrt(1 - (Correlation * Correlation)) * other), panel);
    }

    private static double Halton(int index, int radix)
    {
        double sum = 0, part = 1;
        for (; index > 0; index /= radix)
        {
            part /= radix;
            sum += part * (index % radix);
        }

        return sum;
    }
}
