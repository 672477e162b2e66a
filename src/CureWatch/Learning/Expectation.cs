namespace CureWatch.Learning;

/// <summary>What is held for possible before anybody tapped, and how an observation scatters.</summary>
/// <param name="ProductVariance">Variance of a product's own effect on ln hours [1]: how far a sheet may be off for how this shop works.</param>
/// <param name="BayVariance">Variance of what a bay and its people add to it [1].</param>
/// <param name="NoiseVariance">Variance of one observation [1], as long as the observations themselves have not told it.</param>
/// <param name="EarlyFreedom">Degrees of freedom by which an observation that comes early is given less weight [1].</param>
/// <param name="LateFreedom">The same for one that comes late: taps are late more often than early.</param>
/// <remarks>Source (choice) for every number: what taps of a shop scatter by, guessed as a person sees and comes by; a simulated season holds them to account.</remarks>
public sealed record Expectation(double ProductVariance, double BayVariance, double NoiseVariance, double EarlyFreedom = 4, double LateFreedom = 3)
{
    /// <summary>As how many observations the expected variance of one counts [1]. Source (choice): a shop's own taps soon outweigh it.</summary>
    internal const double NoiseFreedom = 3;

    /// <summary>An observation further from what was expected than this many deviations is a slip and teaches nothing [1].</summary>
    private const double FarOff = 6;

    /// <summary>How many observations are slips [1]. Source (choice).</summary>
    private const double SlipShare = 0.1;

    /// <summary>How many of the slips are late [1]: people forget sooner than they foresee. Source (choice).</summary>
    private const double LateShare = 0.7;

    /// <summary>How far a slip may lie either way [ln hours]: a seventh, or seven times as long. Source (choice).</summary>
    private const double SlipReach = 2;

    /// <summary>
    /// How fast what was learnt grows old [1/day]: products are refilled, people change; 10 % in a year. A pace of 0.02² would forget in a year
    /// more than a sheet may be off by, and with a tap a day never gets surer than ±11 %, where ±7 % are true. Source (choice).
    /// </summary>
    private const double VariancePerDay = 0.005 * 0.005;

    /// <summary>Of a flash, which somebody watches.</summary>
    public static Expectation Flash { get; } = new(0.3 * 0.3, 0.15 * 0.15, 0.2 * 0.2);

    /// <summary>Of a drying, which somebody comes by to look at.</summary>
    public static Expectation KeepDry { get; } = new(0.3 * 0.3, 0.15 * 0.15, 0.3 * 0.3);

    /// <summary>The expectation of a stage.</summary>
    /// <param name="stage">The stage.</param>
    /// <returns>The expectation.</returns>
    public static Expectation Of(TaughtStage stage) => stage == TaughtStage.Flash ? Flash : KeepDry;

    /// <summary>How much weight an observation has by what was known before it.</summary>
    /// <param name="deviations">How far it lies from what was expected [deviations], above 0 where it came late.</param>
    /// <returns>The weight, at most 1; 0 where it must have been a slip.</returns>
    /// <remarks>
    /// Equation: w = min(1, (ν + 1)/(ν + r²)). Source (law): the weights that make the mean of t-distributed observations most likely (Lange,
    /// Little and Taylor 1989, J. Amer. Stat. Assoc. 84, 881), from memory; the cap is a choice: nobody counts for more than one.
    /// </remarks>
    public double WeightOf(double deviations)
    {
        if (Math.Abs(deviations) > FarOff)
        {
            return 0;
        }

        double freedom = deviations > 0 ? LateFreedom : EarlyFreedom;
        return Math.Min(1, (freedom + 1) / (freedom + (deviations * deviations)));
    }

    /// <summary>How probable it is that an observation was meant, by all that is known.</summary>
    /// <param name="isLate">Whether it lies above what is known.</param>
    /// <param name="square">Its squared distance from that, the doubt of what is known included [1].</param>
    /// <param name="variance">Variance of one that was meant [1].</param>
    /// <returns>The chance, 0 to 1; 0 where it must have been a slip.</returns>
    /// <remarks>Equation: (1 − ε)N(d; 0, s²) against ε times the density of slips, which is the same over all their reach. Source (law): Bayes.</remarks>
    internal static double ChanceMeant(bool isLate, double square, double variance)
    {
        double meant = (1 - SlipShare) * Math.Exp(-square / (2 * variance)) / Math.Sqrt(2 * Math.PI * variance);
        double slip = SlipShare * (isLate ? LateShare : 1 - LateShare) / SlipReach;
        return square > FarOff * FarOff * variance ? 0 : meant / (meant + slip);
    }

    /// <summary>A product's variance after some time: it grows, and never beyond what it was before anybody tapped.</summary>
    internal double ProductVarianceAfter(double variance, double days) => Aged(variance, days, ProductVariance);

    /// <summary>A bay's variance after some time, likewise.</summary>
    internal double BayVarianceAfter(double variance, double days) => Aged(variance, days, BayVariance);

    /// <summary>Both levels grow old in proportion to what they may be off by, the sum of them at the stated pace.</summary>
    private double Aged(double variance, double days, double most) =>
        Math.Min(most, variance + (VariancePerDay * Math.Max(0, days) * most / (ProductVariance + BayVariance)));
}
