namespace CureWatch.Learning;

/// <summary>How far observations of a stage lie from what is true, as far as they have told themselves.</summary>
/// <param name="Freedom">Observations that it rests on, with those taken for granted before anybody tapped [1].</param>
/// <param name="SumOfSquares">Sum of their squared distances on ln hours [1].</param>
/// <remarks>
/// Equation: s² = (ν₀s₀² + Σw·d²)/(ν₀ + Σw). Source (law): the scaled inverse-χ² law, conjugate to a normal law's variance; Gelman and others,
/// Bayesian Data Analysis, 2.6, from memory.
/// </remarks>
public sealed record Scatter(double Freedom, double SumOfSquares)
{
    /// <summary>Observations of long ago count for no more than so many [1]: people change. Source (choice).</summary>
    private const double MostFreedom = 60;

    /// <summary>Variance of one observation [1].</summary>
    public double Variance => SumOfSquares / Freedom;

    /// <summary>Before anybody tapped.</summary>
    /// <param name="expectation">What is held for possible.</param>
    /// <returns>The scatter.</returns>
    public static Scatter Expected(Expectation expectation) =>
        new(Expectation.NoiseFreedom, Expectation.NoiseFreedom * expectation.NoiseVariance);

    /// <summary>Takes observations in.</summary>
    /// <param name="weight">How many, each as far as it was meant [1].</param>
    /// <param name="squares">Sum of their squared distances, so weighted [1].</param>
    /// <returns>The scatter.</returns>
    public Scatter With(double weight, double squares) => new(Freedom + weight, SumOfSquares + squares);

    /// <summary>The scatter as it goes on from here.</summary>
    /// <returns>The same variance, of no more observations than still count.</returns>
    public Scatter Kept() => Freedom <= MostFreedom ? this : new Scatter(MostFreedom, Variance * MostFreedom);
}
