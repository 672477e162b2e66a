using System.Collections.Immutable;

namespace CureWatch.Learning;

/// <summary>Weighs observations by one another, the first by the last as well as the last by the first, and learns by how much they scatter.</summary>
/// <remarks>
/// Law: an observation is meant and scatters normally by s, or it is a slip and lies anywhere. Its weight is the chance that it was meant; weights, s
/// and effects are found in turns until nothing moves. Source (law): Dempster, Laird and Rubin 1977, J. Roy. Stat. Soc. B 39, 1–38, from memory. It
/// begins with the observations as they came, each weighed by what was known before it: that alone would give a slip among the first a say for good.
/// </remarks>
internal sealed class Weighing
{
    /// <summary>The most turns. Source (choice): a few are the rule.</summary>
    private const int MostTurns = 20;

    /// <summary>Weights that move by less than this stand still [1]. Source (choice).</summary>
    private const double StandsStill = 1e-6;

    private readonly Effects _settled;
    private readonly ImmutableArray<Lesson> _lessons;
    private readonly Expectation _expectation;
    private readonly double[] _weights, _squares;
    private Scatter _scatter;

    private Weighing(Effects settled, ImmutableArray<Lesson> lessons, Expectation expectation)
    {
        (_settled, _lessons, _expectation, _scatter) = (settled, lessons, expectation, settled.Scatter);
        (_weights, _squares) = (new double[lessons.Length], new double[lessons.Length]);
    }

    /// <summary>Weighs observations.</summary>
    /// <param name="settled">What was known before them.</param>
    /// <param name="lessons">The observations, in the order they happened.</param>
    /// <param name="expectation">What is held for possible.</param>
    /// <returns>The weighing, once nothing moves.</returns>
    public static Weighing Of(Effects settled, ImmutableArray<Lesson> lessons, Expectation expectation)
    {
        Weighing weighing = AsTheyCame(settled, lessons, expectation);
        int turn = 0;
        while (weighing.Turn() > StandsStill && ++turn < MostTurns)
        {
            // Each turn is nearer.
        }

        return weighing;
    }

    /// <summary>Weighs each observation by what was known before it, scattering by as much as was known before any of them.</summary>
    public static Weighing AsTheyCame(Effects settled, ImmutableArray<Lesson> lessons, Expectation expectation)
    {
        var weighing = new Weighing(settled, lessons, expectation);
        EffectsFilter filter = weighing.Begin();
        for (int i = 0; i < lessons.Length; i++)
        {
            if (lessons[i].LnRatio is { } lnRatio)
            {
                filter.AgeTo(lessons[i].At);
                (double mean, double variance) = filter.In(lessons[i].Bay);
                weighing._weights[i] = expectation.WeightOf((lnRatio - mean) / Math.Sqrt(variance + settled.Scatter.Variance));
                weighing.Take(filter, i);
            }
        }

        return weighing;
    }

    /// <summary>What is known after the first of them, in the light of all.</summary>
    /// <param name="count">How many.</param>
    /// <returns>The effects.</returns>
    public Effects After(int count)
    {
        Effects counted = _settled;
        for (int i = 0; i < count; i++)
        {
            counted = counted.Counting(_lessons[i], isMeant: _weights[i] > 0, _expectation);
        }

        return Folded(count).Into(counted) with { Scatter = ScatterOf(count).Kept() };
    }

    /// <returns>By how much the weight that moved most did [1].</returns>
    private double Turn()
    {
        EffectsFilter known = Folded(_lessons.Length);
        for (int i = 0; i < _lessons.Length; i++)
        {
            (double mean, double variance) = known.In(_lessons[i].Bay);
            double surprise = _lessons[i].LnRatio - mean ?? 0;
            _squares[i] = (surprise * surprise) + variance;
        }

        _scatter = ScatterOf(_lessons.Length);
        double moved = 0;
        for (int i = 0; i < _lessons.Length; i++)
        {
            if (_lessons[i].LnRatio is { } lnRatio)
            {
                double weight = Expectation.ChanceMeant(lnRatio > known.In(_lessons[i].Bay).Mean, _squares[i], _scatter.Variance);
                moved = Math.Max(moved, Math.Abs(weight - _weights[i]));
                _weights[i] = weight;
            }
        }

        return moved;
    }

    private EffectsFilter Folded(int count)
    {
        EffectsFilter filter = Begin();
        for (int i = 0; i < count; i++)
        {
            Take(filter, i);
        }

        return filter;
    }

    private EffectsFilter Begin() => new(_settled, _lessons.Select(l => l.Bay), _expectation);

    private void Take(EffectsFilter filter, int i)
    {
        if (_lessons[i].LnRatio is { } lnRatio && _weights[i] > 0)
        {
            filter.Take(_lessons[i].Bay, _lessons[i].At, lnRatio, _scatter.Variance / _weights[i]);
        }
    }

    private Scatter ScatterOf(int count)
    {
        double weight = 0, squares = 0;
        for (int i = 0; i < count; i++)
        {
            weight += _weights[i];
            squares += _weights[i] * _squares[i];
        }

        return _settled.Scatter.With(weight, squares);
    }
}
