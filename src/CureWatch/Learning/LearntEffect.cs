using CureWatch.Psychrometrics;

namespace CureWatch.Learning;

/// <summary>How far a stage differs from its sheet in one bay, as somebody taught it.</summary>
/// <param name="Mean">The effect on ln hours [1]; below 0 where it is faster.</param>
/// <param name="Variance">How unsure it is [1].</param>
/// <param name="Here">Observations in this bay that taught something.</param>
/// <param name="Everywhere">Observations in every bay that taught something.</param>
public sealed record LearntEffect(double Mean, double Variance, int Here, int Everywhere)
{
    /// <summary>What the sheet's hours are multiplied by [1].</summary>
    public double Factor => Math.Exp(Mean);

    /// <summary>5 % may be below [1].</summary>
    public double Low => Math.Exp(Mean - (NormalDistribution.NinetyFifthPercentile * Math.Sqrt(Variance)));

    /// <summary>5 % may be above [1].</summary>
    public double High => Math.Exp(Mean + (NormalDistribution.NinetyFifthPercentile * Math.Sqrt(Variance)));
}
