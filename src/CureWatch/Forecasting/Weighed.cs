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
        (double Number, double Weight)[] sorted = [.. numbers];
        Array.Sort(sorted); // by weight where numbers are alike, so that no runtime sums them up in another order
        double left = sorted.Sum(n => n.Weight) * share;
        foreach ((double number, double weight) in sorted)
        {
            left -= weight;
            if (left <= 0)
            {
                return number;
            }
        }

        return sorted[^1].Number;
    }
}
