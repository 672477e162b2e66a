namespace CureWatch.Curing;

/// <summary>Gauss's rule of three points: the mean of a smooth quantity over a stretch from its values at three instants.</summary>
/// <remarks>
/// Equation: (5·f(½ − ½√0.6) + 8·f(½) + 5·f(½ + ½√0.6))/18, exact for polynomials up to the fifth degree.
/// Source (law): Abramowitz and Stegun 1964, eq. 25.4.30 and table 25.4.
/// </remarks>
public static class GaussRule
{
    /// <summary>The first instant, as a share of the stretch [1].</summary>
    public const double Early = 0.1127016653792583;

    /// <summary>The second instant, as a share of the stretch [1].</summary>
    public const double Middle = 0.5;

    /// <summary>The third instant, as a share of the stretch [1].</summary>
    public const double Late = 1 - Early;

    /// <summary>The mean.</summary>
    /// <param name="early">The value at <see cref="Early"/>.</param>
    /// <param name="middle">The value at <see cref="Middle"/>.</param>
    /// <param name="late">The value at <see cref="Late"/>.</param>
    /// <returns>The mean, in the unit of the values.</returns>
    public static double Mean(double early, double middle, double late) => ((5 * early) + (8 * middle) + (5 * late)) / 18;
}
