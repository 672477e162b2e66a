namespace CureWatch.Forecasting;

/// <summary>Numbers of which each counts as much as its weight.</summary>
internal static class Weighed
{
    /// <summary>The number with half of the weight on either side.</summary>
    /// <param name="numbers">The numbers with their weights; at least one.</param>
    public static double Median(IEnumerable<(double Number, double Weight)> numbers) => Quantile(numbers, 0.5);

    /// <summary>The number below which a share of the weight lies.</summary>
    /// <param name="numbers">The numbers with their weights; at least one.</param>
    /// <param name="share">The share, 0 to 1.</param>
    public static double Quantile(IEnumerable<(double Number, double Weight)> numbers, double share)
    {
        (double Number, double Weight)[] all = [.. numbers];
        double[] sorted = Array.ConvertAll(all, n => n.Number), weights = Array.ConvertAll(all, n => n.Weight);
        Array.Sort(sorted, weights);
        double left = weights.Sum() * share;
        for (int i = 0; i < sorted.Length; i++)
        {
            left -= weights[i];
            if (left <= 0)
            {
                return sorted[i];
            }
        }

        return sorted[^1];
    }
}
