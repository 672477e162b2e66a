namespace CureWatch.Learning;

/// <summary>The conditional normal law at work on the effects of a stage, in place: a judgement folds the same observations many times.</summary>
/// <remarks>
/// Equation: z = b + d + e; b ~ N(0, v_b) of the product, d ~ N(0, v_d) of the bay, e ~ N(0, s²/w) of the observation. Source (law): Kalman 1960.
/// Two bays have nothing in common but the product, so their covariance is C₁C₂/P; kept in this form, what is stored and what an observation costs
/// grow with the number of bays, not its square. Exact, but for the ageing of what lies between.
/// </remarks>
internal sealed class EffectsFilter
{
    private readonly Expectation _expectation;
    private readonly Dictionary<string, int> _places = new(StringComparer.Ordinal);
    private readonly BayPart[] _bays;
    private double _mean, _variance;
    private DateTimeOffset? _at;

    public EffectsFilter(Effects from, IEnumerable<string> bays, Expectation expectation)
    {
        (_expectation, _mean, _variance, _at) = (expectation, from.Mean, from.Variance, from.At);
        foreach (string bay in from.ByBay.Keys.Concat(bays))
        {
            _places.TryAdd(bay, _places.Count);
        }

        _bays = new BayPart[_places.Count];
        foreach ((string bay, int place) in _places)
        {
            BayEffect known = from.ByBay.GetValueOrDefault(bay) ?? BayEffect.Unknown(expectation);
            _bays[place] = new BayPart(known.Mean, known.Variance, known.Covariance);
        }
    }

    /// <summary>What is known of the stage in a bay.</summary>
    public (double Mean, double Variance) In(string bay)
    {
        BayPart here = _bays[_places[bay]];
        return (_mean + here.Mean, Math.Max(0, _variance + (2 * here.Covariance) + here.Variance));
    }

    /// <summary>Has everything grow as old as it is at an instant; never younger.</summary>
    public void AgeTo(DateTimeOffset at)
    {
        double days = (at - (_at ?? at)).TotalDays;
        if (days < 0)
        {
            return;
        }

        _at = at;
        _variance = _expectation.ProductVarianceAfter(_variance, days);
        for (int i = 0; i < _bays.Length; i++)
        {
            _bays[i] = _bays[i] with { Variance = _expectation.BayVarianceAfter(_bays[i].Variance, days) };
        }
    }

    /// <summary>Takes an observation in.</summary>
    /// <param name="bay">The bay.</param>
    /// <param name="at">When it happened.</param>
    /// <param name="lnRatio">What it says [ln hours].</param>
    /// <param name="noise">Its own variance, by its weight [1].</param>
    public void Take(string bay, DateTimeOffset at, double lnRatio, double noise)
    {
        AgeTo(at);
        int place = _places[bay];
        (double mean, double variance) = In(bay);
        double surprise = lnRatio - mean, total = variance + noise;
        double product = _variance + _bays[place].Covariance, own = _bays[place].Covariance + _bays[place].Variance;
        double left = _variance - (product * product / total);
        for (int i = 0; i < _bays.Length; i++)
        {
            BayPart before = _bays[i];
            double shared = i == place ? own : before.Covariance * product / _variance;
            _bays[i] = new BayPart(
                before.Mean + (shared * surprise / total),
                before.Variance - (shared * shared / total),
                i == place ? before.Covariance - (product * own / total) : before.Covariance * left / _variance);
        }

        _mean += product * surprise / total;
        _variance = left;
    }

    /// <summary>Writes what is known into effects that are counted elsewhere.</summary>
    public Effects Into(Effects counted)
    {
        var bays = counted.ByBay.ToBuilder();
        foreach ((string bay, BayEffect effect) in counted.ByBay)
        {
            BayPart known = _bays[_places[bay]];
            bays[bay] = effect with { Mean = known.Mean, Variance = known.Variance, Covariance = known.Covariance };
        }

        return counted with { Mean = _mean, Variance = _variance, ByBay = bays.ToImmutable(), At = _at };
    }

    private readonly record struct BayPart(double Mean, double Variance, double Covariance);
}
