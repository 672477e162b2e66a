namespace CureWatch.Benchmarks.Harness;

/// <summary>A share's value in sorted measurements.</summary>
internal static class Quantile
{
    public static double Of(double[] sorted, double share) =>
        sorted.Length == 0 ? double.NaN : sorted[Math.Min(sorted.Length - 1, (int)(share * sorted.Length))];
}
