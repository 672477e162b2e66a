using CureWatch.Panels;
using CureWatch.Products;
using CureWatch.Psychrometrics;

namespace CureWatch.Curing;

/// <summary>The climate that stands in the mean for one that nobody knows, and what a rate is worth to the bounds for that.</summary>
/// <param name="Law">The rate law.</param>
/// <param name="Terms">The climate that stands for the others.</param>
/// <remarks>
/// <para>
/// A coat's bounds are as wide as its sheet is unsure at the coat's own mean climate. Where nobody measured, that mean is of a climate which stands for
/// the true one, and may lie nearer to the sheet's rows: then the bounds would be closer than if it had been measured, and a probe that died
/// could bring a release forward. So what the true climate may have added to the width is taken off its rate, and put on it for the fast bound.
/// </para>
/// <para>
/// Equation: θ·σ(mean) = ‖∫k·v dt‖ ≤ ‖∫k·v₀ dt‖ + ∫k·‖v − v₀‖ dt, with v = (1, x, −y) and ‖·‖ by the covariance of the fit. Source (law): triangle
/// inequality. A width that is added to a factor F = exp(1.645 σ) costs F times as many hours. Source (choice): 1.5, which F is 10 K from
/// a single row.
/// </para>
/// </remarks>
internal readonly record struct StandIn(RateLaw Law, RateTerms Terms)
{
    private const double SlowCost = 1.5 * NormalDistribution.NinetyFifthPercentile;
    private const double FastCost = NormalDistribution.NinetyFifthPercentile;

    /// <summary>One climate for all of a stretch.</summary>
    public static Func<DateTimeOffset, StandIn> Held(RateLaw law, Exposure exposure)
    {
        StandIn held = Of(law, exposure);
        return _ => held;
    }

    /// <summary>The climate straight between the ends of a stretch.</summary>
    public static Func<DateTimeOffset, StandIn> Along(RateLaw law, ClimateSegment segment) => at => Of(law, segment.ExposureAt(at));

    /// <summary>The least rate that may be counted on in a climate.</summary>
    public double Slow(RateTerms actual) => Law.Likely(actual) * Math.Exp(-SlowCost * Law.DoubtBetween(actual, Terms));

    /// <summary>The highest rate that must be reckoned with in a climate.</summary>
    public double Fast(RateTerms actual) => Law.Fast(actual) * Math.Exp(FastCost * Law.DoubtBetween(actual, Terms));

    /// <summary>What a progress is worth that may have been made instead, in a climate for which the likely one stands in the mean.</summary>
    public static Credit Worth(RateLaw law, in ClimateSegment segment, Alternative alternative, Credit made)
    {
        double doubt = Math.Max(Of(law, segment.AtStart).Doubt(alternative.AtStart), Of(law, segment.AtEnd).Doubt(alternative.AtEnd));
        return made with { Slow = made.Slow * Math.Exp(-SlowCost * doubt), Fast = made.Fast * Math.Exp(FastCost * doubt) };
    }

    private double Doubt(Exposure actual) => Law.DoubtBetween(Law.Terms(actual.PanelKelvins, actual.VapourPressurePa), Terms);

    private static StandIn Of(RateLaw law, Exposure exposure) => new(law, law.Terms(exposure.PanelKelvins, exposure.VapourPressurePa));
}
