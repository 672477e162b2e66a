namespace CureWatch.Psychrometrics;

/// <summary>The normal distribution with mean 0 and standard deviation 1.</summary>
internal static class NormalDistribution
{
    /// <summary>What 95 % of the draws lie below, and 5 % above [standard deviations]. Source (law).</summary>
    public const double NinetyFifthPercentile = 1.6448536269514722;

    /// <summary>Chance that a draw lies below a bound.</summary>
    /// <param name="bound">The bound, in standard deviations; any number.</param>
    /// <returns>Chance [1], 0 to 1, within 1e-15; NaN for NaN.</returns>
    /// <remarks>
    /// Equation: Φ(z) = ½ + φ(z)·(z + z³/3 + z⁵/(3·5) + …).
    /// Source (law): Abramowitz and Stegun 1964, eq. 26.2.11.
    /// Edges: beyond ±8.5 the tail is less than the last digit of a double and is taken as none.
    /// </remarks>
    public static double ChanceBelow(double bound)
    {
        if (Math.Abs(bound) > 8.5)
        {
            return bound > 0 ? 1 : 0;
        }

        double term = bound, sum = bound;
        for (int odd = 3; Math.Abs(term) > Math.Abs(sum) * 1e-17; odd += 2)
        {
            term *= bound * bound / odd;
            sum += term;
        }

        double density = Math.Exp(-bound * bound / 2) / Math.Sqrt(2 * Math.PI);
        return Math.Clamp(0.5 + (density * sum), 0, 1);
    }
}
