namespace CureWatch.Learning;

/// <summary>What a bay and the people in it add to a product's own effect, and what was told there.</summary>
/// <param name="Mean">The addition to ln hours [1].</param>
/// <param name="Variance">How unsure it is [1].</param>
/// <param name="Covariance">With the product's own effect [1]: what one of them took, the other did not.</param>
/// <param name="Taken">Observations that taught something.</param>
/// <param name="FarOff">Observations so far off that they must have been slips.</param>
/// <param name="Unwatched">Observations in a climate nobody measured.</param>
/// <param name="Since">When the first of them happened; null where there is none.</param>
/// <param name="NotBefore">Observations up to here count no more: somebody had the bay start anew.</param>
public sealed record BayEffect(
    double Mean,
    double Variance,
    double Covariance,
    int Taken = 0,
    int FarOff = 0,
    int Unwatched = 0,
    DateTimeOffset? Since = null,
    DateTimeOffset NotBefore = default)
{
    /// <summary>A bay in which nobody told anything yet.</summary>
    /// <param name="expectation">What is held for possible.</param>
    /// <returns>The effect.</returns>
    public static BayEffect Unknown(Expectation expectation) => new(0, expectation.BayVariance, 0);
}
