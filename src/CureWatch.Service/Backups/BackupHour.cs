namespace CureWatch.Service.Backups;

/// <summary>When a backup was due last. Asked again and again, so that one missed while the service was off is made up for.</summary>
internal static class BackupHour
{
    /// <param name="now">The present.</param>
    /// <param name="at">The time of day on the wall clock.</param>
    /// <param name="zone">Whose wall clock.</param>
    /// <returns>The last instant at or before now at which that clock showed that time; where it skipped it, the first one it showed then.</returns>
    public static DateTimeOffset Last(DateTimeOffset now, TimeOnly at, TimeZoneInfo zone)
    {
        var today = DateOnly.FromDateTime(TimeZoneInfo.ConvertTime(now, zone).DateTime);
        DateTimeOffset due = On(today, at, zone);
        return due <= now ? due : On(today.AddDays(-1), at, zone);
    }

    private static DateTimeOffset On(DateOnly day, TimeOnly at, TimeZoneInfo zone)
    {
        DateTime wall = day.ToDateTime(at);
        while (true)
        {
            if (First(wall, zone) is { } instant)
            {
                return instant.ToUniversalTime();
            }

            wall = wall.AddMinutes(1);
        }
    }

    /// <returns>When the wall clock showed this, the first time where it did twice; null where it skipped it.</returns>
    /// <remarks>The offsets of the days around are tried: zones differ in what they call summer time, and answer for such hours accordingly.</remarks>
    private static DateTimeOffset? First(DateTime wall, TimeZoneInfo zone) => new[] { wall.AddDays(-1), wall.AddDays(1) }
        .Select(day => (DateTimeOffset?)new DateTimeOffset(wall, zone.GetUtcOffset(day)))
        .Where(at => TimeZoneInfo.ConvertTime(at!.Value, zone).DateTime == wall)
        .Min();
}
