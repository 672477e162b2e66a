namespace CureWatch.Service.Mqtt;

/// <summary>How long to wait before the next attempt: twice as long each time, and never quite as long as anybody else.</summary>
internal static class BackOff
{
    private static readonly TimeSpan First = TimeSpan.FromMilliseconds(500);
    private static readonly TimeSpan Longest = TimeSpan.FromSeconds(30);

    /// <param name="failures">Attempts that failed so far, 0 or more.</param>
    /// <param name="chance">Any number from 0 to 1.</param>
    public static TimeSpan After(int failures, double chance)
    {
        TimeSpan whole = First * Math.Pow(2, Math.Min(failures, 10));
        return (whole < Longest ? whole : Longest) * (0.75 + (0.25 * chance));
    }
}
