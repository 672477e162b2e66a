namespace CureWatch.Planning;

/// <summary>The durations that a pass is planned with.</summary>
public static class PlanningRange
{
    /// <summary>Longest duration. Source (choice): far beyond any coat, and short enough that no sum here overflows.</summary>
    public static TimeSpan Longest { get; } = TimeSpan.FromDays(365);

    internal static void DemandAboveZero(TimeSpan duration, string name)
    {
        if (duration <= TimeSpan.Zero || duration > Longest)
        {
            throw new ArgumentOutOfRangeException(name, duration, $"Expected above zero, up to {Longest:c}.");
        }
    }

    internal static void DemandNotNegative(TimeSpan duration, string name)
    {
        if (duration < TimeSpan.Zero || duration > Longest)
        {
            throw new ArgumentOutOfRangeException(name, duration, $"Expected zero to {Longest:c}.");
        }
    }
}
