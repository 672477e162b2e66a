namespace CureWatch.Forecasting;

/// <summary>One hour's mean of something.</summary>
/// <param name="Hour">The hour, counted from 1970-01-01T00:00Z.</param>
/// <param name="Value">Its mean, in the unit of what was measured.</param>
/// <remarks>The default is zero in the first hour there is.</remarks>
public readonly record struct HourValue(long Hour, double Value)
{
    private const long SecondsPerHour = 3600;

    /// <summary>The hour an instant lies in.</summary>
    /// <param name="at">The instant; the offset does not matter, so an hour that a clock shows twice is two hours.</param>
    /// <returns>Hours since 1970-01-01T00:00Z, rounded down.</returns>
    public static long HourOf(DateTimeOffset at) => (long)Math.Floor(at.ToUnixTimeSeconds() / (double)SecondsPerHour);

    /// <summary>When an hour begins.</summary>
    /// <param name="hour">Hours since 1970-01-01T00:00Z.</param>
    /// <returns>The instant.</returns>
    public static DateTimeOffset StartOf(long hour) => DateTimeOffset.FromUnixTimeSeconds(hour * SecondsPerHour);
}
