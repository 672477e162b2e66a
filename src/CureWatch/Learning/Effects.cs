using System.Collections.Immutable;

namespace CureWatch.Learning;

/// <summary>How far a stage of a product differs from its sheet in this shop: the product's own effect, and what each bay adds to it.</summary>
/// <param name="Mean">The product's effect on ln hours [1].</param>
/// <param name="Variance">How unsure it is [1].</param>
/// <param name="ByBay">The bays, by id.</param>
/// <param name="At">The instant of the newest observation in it; null before the first.</param>
/// <param name="Scatter">How far its observations lie from what is true.</param>
public sealed record Effects(double Mean, double Variance, ImmutableSortedDictionary<string, BayEffect> ByBay, DateTimeOffset? At, Scatter Scatter)
{
    /// <summary>Before anybody tapped.</summary>
    /// <param name="expectation">What is held for possible.</param>
    /// <returns>The effects.</returns>
    public static Effects Unknown(Expectation expectation) => new(
        0, expectation.ProductVariance, ImmutableSortedDictionary.Create<string, BayEffect>(StringComparer.Ordinal), null, Scatter.Expected(expectation));

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

        var aged = new EffectsFilter(this, [bay], expectation);
        aged.AgeTo(at);
        (double mean, double variance) = aged.In(bay);
        return new LearntEffect(mean, variance, BayOf(bay, expectation).Taken, Taken);
    }

    /// <summary>Counts an observation that is taken in elsewhere.</summary>
    internal Effects Counting(Lesson lesson, bool isMeant, Expectation expectation)
    {
        BayEffect before = BayOf(lesson.Bay, expectation);
        BayEffect told = before with { Since = before.Since ?? lesson.At };
        return With(
            lesson.Bay,
            lesson.LnRatio is null ? told with { Unwatched = told.Unwatched + 1 }
            : isMeant ? told with { Taken = told.Taken + 1 }
            : told with { FarOff = told.FarOff + 1 });
    }

    /// <summary>
    /// Has a bay start anew: what was told there has told its part about the product, and nothing more about the bay. Where nobody taught anything elsewhere the
    /// product starts anew with it, or the first tap after would bring back what was to be forgotten.
    /// </summary>
    internal Effects Forget(string bay, DateTimeOffset at, Expectation expectation)
    {
        Effects others = With(bay, BayEffect.Unknown(expectation) with { NotBefore = at });
        return others.Taken > 0 ? others : Unknown(expectation) with { ByBay = others.ByBay };
    }

    private BayEffect BayOf(string bay, Expectation expectation) => ByBay.GetValueOrDefault(bay) ?? BayEffect.Unknown(expectation);

    private Effects With(string bay, BayEffect effect) => this with { ByBay = ByBay.SetItem(bay, effect) };
}
