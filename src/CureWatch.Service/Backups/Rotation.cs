using System.Globalization;
using CureWatch.Service.Settings;

namespace CureWatch.Service.Backups;

/// <summary>Which backups stay: the newest of each of the last days, weeks and months that have one, and the newest of all in any case.</summary>
internal static class Rotation
{
    /// <param name="backups">When each was begun.</param>
    /// <param name="settings">For how long they are kept.</param>
    /// <param name="zone">Where their days begin.</param>
    /// <returns>Those that stay.</returns>
    public static IReadOnlySet<DateTimeOffset> Kept(IEnumerable<DateTimeOffset> backups, BackupSettings settings, TimeZoneInfo zone)
    {
        List<(DateTimeOffset At, DateTime Day)> all = [.. backups.OrderDescending().Select(at => (at, TimeZoneInfo.ConvertTime(at, zone).Date))];
        return all.Take(1)
            .Concat(NewestOfEach(all, settings.Daily, day => day))
            .Concat(NewestOfEach(all, settings.Weekly, day => (ISOWeek.GetYear(day), ISOWeek.GetWeekOfYear(day))))
            .Concat(NewestOfEach(all, settings.Monthly, day => (day.Year, day.Month)))
            .Select(b => b.At).ToHashSet();
    }

    private static IEnumerable<(DateTimeOffset At, DateTime Day)> NewestOfEach<T>(
        IEnumerable<(DateTimeOffset At, DateTime Day)> newestFirst, int most, Func<DateTime, T> stretch) =>
        newestFirst.DistinctBy(b => stretch(b.Day)).Take(most);
}
