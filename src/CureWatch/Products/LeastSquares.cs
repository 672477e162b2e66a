namespace CureWatch.Products;

/// <summary>Weighted least squares with bounds, for a handful of unknowns.</summary>
/// <remarks>
/// Equation: minimise Σ ((factors·v − value)/deviation)². A prior belief about an unknown is one more observation, of that unknown alone.
/// The sum is convex, so where the free minimum breaks a bound the answer lies on one: every way of pinning unknowns to their bounds is
/// solved and the best that keeps all bounds is taken.
/// </remarks>
internal sealed class LeastSquares
{
    private readonly double[,] _normal;
    private readonly double[] _right;

    /// <summary>Sums the normal equations.</summary>
    /// <param name="observations">At least one that speaks of each unknown.</param>
    public LeastSquares(IReadOnlyList<Observation> observations)
    {
        int size = observations[0].Factors.Length;
        _normal = new double[size, size];
        _right = new double[size];
        foreach (Observation seen in observations)
        {
            double weight = 1 / (seen.Deviation * seen.Deviation);
            for (int row = 0; row < size; row++)
            {
                _right[row] += weight * seen.Factors[row] * seen.Value;
                for (int column = 0; column < size; column++)
                {
                    _normal[row, column] += weight * seen.Factors[row] * seen.Factors[column];
                }
            }
        }
    }

    /// <summary>Finds the unknowns.</summary>
    /// <param name="bounds">One for each unknown.</param>
    /// <returns>The minimum inside the bounds.</returns>
    public double[] Minimum(IReadOnlyList<Bound> bounds) =>
        PinnedCases(bounds)
            .Select(MinimumWith)
            .Where(v => v.Zip(bounds, (value, bound) => bound.Holds(value)).All(held => held))
            .MinBy(Cost)!;

    /// <summary>The covariance of the unknowns, as if there were no bounds.</summary>
    /// <returns>The inverse of the normal matrix.</returns>
    public double[,] Covariance() => new Cholesky(_normal).Inverse();

    private static IEnumerable<double?[]> PinnedCases(IReadOnlyList<Bound> bounds) =>
        bounds.Aggregate(
            (IEnumerable<double?[]>)[[]],
            (cases, bound) => cases.SelectMany(pinned => bound.Choices.Select(choice => (double?[])[.. pinned, choice])));

    private double[] MinimumWith(double?[] pinned)
    {
        int[] free = [.. Enumerable.Range(0, pinned.Length).Where(i => pinned[i] is null)];
        double[] v = [.. pinned.Select(value => value ?? 0)];
        var matrix = new double[free.Length, free.Length];
        double[] right = new double[free.Length];
        for (int row = 0; row < free.Length; row++)
        {
            right[row] = _right[free[row]] - Along(free[row], v);
            for (int column = 0; column < free.Length; column++)
            {
                matrix[row, column] = _normal[free[row], free[column]];
            }
        }

        double[] solved = new Cholesky(matrix).Solve(right);
        for (int row = 0; row < free.Length; row++)
        {
            v[free[row]] = solved[row];
        }

        return v;
    }

    private double Cost(double[] v) => v.Select((value, row) => value * (Along(row, v) - (2 * _right[row]))).Sum();

    private double Along(int row, double[] v) => v.Select((value, column) => _normal[row, column] * value).Sum();
}

/// <summary>One thing seen about the unknowns.</summary>
/// <param name="Factors">What each unknown is multiplied with.</param>
/// <param name="Value">What the sum was seen to be.</param>
/// <param name="Deviation">Standard deviation of that value, above 0; infinite for a value nobody trusts.</param>
internal sealed record Observation(double[] Factors, double Value, double Deviation);

/// <summary>Where an unknown must lie.</summary>
/// <param name="Least">The lower bound.</param>
/// <param name="Most">The upper bound.</param>
internal sealed record Bound(double Least, double Most)
{
    /// <summary>No bound at all.</summary>
    public static Bound None { get; } = new(double.NegativeInfinity, double.PositiveInfinity);

    /// <summary>Ways to treat the unknown: free (null), or pinned to a bound it has.</summary>
    public IEnumerable<double?> Choices => [null, .. new double?[] { Least, Most }.Where(bound => double.IsFinite(bound!.Value))];

    /// <summary>Whether a value lies inside, the bounds included.</summary>
    /// <param name="value">The value.</param>
    /// <returns>True inside.</returns>
    public bool Holds(double value) => value >= Least && value <= Most;
}
