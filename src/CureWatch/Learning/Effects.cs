using System.Collections.Immutable;

namespace CureWatch.Learning;

/// <summary>How far a stage of a product differs from its sheet in this shop: the product's own effect, and what each bay adds to it.</summary>
/// <param name="Mean">The product's effect on ln hours [1].</param>
/// <param name="Variance">How unsure it is [1].</param>
/// <param name="ByBay">The bays, by id.</param>
/// <param name="At">The instant of the newest observation in it; null before the first.</param>
/// <remarks>
/// Equation: z = b + d + e; b ~ N(0, v_b) of the product, d ~ N(0, v_d) of the bay, e ~ N(0, s²/w) of the observation. Source (law): the
/// conditional normal law (Kalman 1960). Two bays have nothing in common but the product, so their covariance is C₁C₂/P; kept in this form, what
/// is stored and what an observation costs grow with the number of bays, not its square. Exact, but for the ageing of what lies between.
/// </remarks>
public sealed record Effects(double Mean, double Variance, ImmutableSortedDictionary<string, BayEffect> ByBay, DateTimeOffset? At)
{
    /// <summary>Before anybody tapped.</summary>
    /// <param name="expectation">What is held for possible.</param>
    /// <returns>The effects.</returns>
    public static Effects Unknown(Expectation expectation) =>
        new(0, expectation.ProductVariance, ImmutableSortedDictionary.Create<string, BayEffect>(StringComparer.Ordinal), null);

    /// <summary>Observations that taught something, in every bay.</summary>
    public int Taken => ByBay.Values.Sum(b => b.Taken);

    /// <summary>What is known of the stage in a bay.</summary>
    /// <param name="bay">The bay; one nobody tapped in has the product's effect, and is as unsure as bays differ.</param>
    /// <param name="at">The instant: what was learnt grows old.</param>
    /// <param name="expectation">What is held for possible.</param>
    /// <returns>The effect; null where nobody taught anything about the product.</returns>
    public LearntEffect? In(string bay, DateTimeOffset at, Expectation expectation)
    {
        if (Taken == 0)
        {
            return null;
        }

        Effects aged = AgedTo(at, expectation);
        BayEffect here = aged.BayOf(bay, expectation);
        return new LearntEffect(aged.Mean + here.Mean, aged.VarianceIn(here), here.Taken, Taken);
    }

    /// <summary>Takes an observation in.</summary>
    /// <param name="lesson">The observation.</param>
    /// <param name="expectation">What is held for possible.</param>
    /// <returns>The effects after it.</returns>
    public Effects Take(Lesson lesson, Expectation expectation)
    {
        BayEffect before = BayOf(lesson.Bay, expectation);
        before = before with { Since = before.Since ?? lesson.At };
        if (lesson.LnRatio is not { } lnRatio)
        {
            return With(lesson.Bay, before with { Unwatched = before.Unwatched + 1 });
        }

        Effects aged = AgedTo(lesson.At, expectation);
        BayEffect here = aged.BayOf(lesson.Bay, expectation) with { Since = before.Since };
        double surprise = lnRatio - aged.Mean - here.Mean;
        double variance = aged.VarianceIn(here);
        double deviations = surprise / Math.Sqrt(variance + expectation.NoiseVariance);
        if (Math.Abs(deviations) > Expectation.FarOff)
        {
            return With(lesson.Bay, before with { FarOff = before.FarOff + 1 });
        }

        double total = variance + (expectation.NoiseVariance / expectation.WeightOf(deviations));
        return aged.Correct(lesson.Bay, here with { Taken = here.Taken + 1 }, surprise, total) with { At = Later(At, lesson.At) };
    }

    /// <summary>Has a bay start anew: what was told there has told its part about the product, and nothing more about the bay.</summary>
    internal Effects Forget(string bay, DateTimeOffset at, Expectation expectation) =>
        With(bay, BayEffect.Unknown(expectation) with { NotBefore = at });

    private Effects Correct(string bay, BayEffect here, double surprise, double total)
    {
        double product = Variance + here.Covariance, own = here.Covariance + here.Variance;
        double left = Variance - (product * product / total);
        var bays = ByBay.ToBuilder();
        foreach ((string id, BayEffect other) in ByBay)
        {
            double shared = other.Covariance * product / Variance;
            bays[id] = other with
            {
                Mean = other.Mean + (shared * surprise / total),
                Variance = other.Variance - (shared * shared / total),
                Covariance = other.Covariance * left / Variance,
            };
        }

        bays[bay] = here with
        {
            Mean = here.Mean + (own * surprise / total),
            Variance = here.Variance - (own * own / total),
            Covariance = here.Covariance - (product * own / total),
        };
        return this with { Mean = Mean + (product * surprise / total), Variance = left, ByBay = bays.ToImmutable() };
    }

    private Effects AgedTo(DateTimeOffset at, Expectation expectation)
    {
        double days = At is { } known ? (at - known).TotalDays : 0;
        return days <= 0 ? this : this with
        {
            Variance = expectation.ProductVarianceAfter(Variance, days),
            ByBay = ByBay.ToImmutableSortedDictionary(b => b.Key, b => b.Value with { Variance = expectation.BayVarianceAfter(b.Value.Variance, days) }, StringComparer.Ordinal),
        };
    }

    private double VarianceIn(BayEffect bay) => Math.Max(0, Variance + (2 * bay.Covariance) + bay.Variance);

    private BayEffect BayOf(string bay, Expectation expectation) => ByBay.GetValueOrDefault(bay) ?? BayEffect.Unknown(expectation);

    private Effects With(string bay, BayEffect effect) => this with { ByBay = ByBay.SetItem(bay, effect) };

    private static DateTimeOffset Later(DateTimeOffset? a, DateTimeOffset b) => a > b ? a.Value : b;
}
