namespace CureWatch.Learning;

/// <summary>How far a stage differs from its sheet in one bay, as somebody taught it.</summary>
/// <param name="Mean">The effect on ln hours [1]; below 0 where it is faster.</param>
/// <param name="Variance">How unsure it is [1].</param>
/// <param name="Here">Observations in this bay that taught something.</param>
/// <param name="Everywhere">Observations in every bay that taught something.</param>
public sealed record LearntEffect(double Mean, double Variance, int Here, int Everywhere)
{
    /// <summary>The 95th percentile of the standard normal law [1]. Source (law).</summary>
    private const double NinetyFifthPercentile = 1.6448536269514722;

    /// <summary>What the sheet's hours are multiplied by [1].</summary>
    public double Factor => Math.Exp(Mean);

    /// <summary>5 % may be below [1].</summary>
    public double Low => Math.Exp(Mean - (NinetyFifthPercentile * Math.Sqrt(Variance)));

    /// <summary>5 % may be above [1].</summary>
    public double High => Math.Exp(Mean + (NinetyFifthPercentile * Math.Sqrt(Variance)));
}
