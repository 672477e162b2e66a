using CureWatch.Planning;
using CureWatch.Words;

namespace CureWatch.Service.Board;

/// <summary>Says instants as people in the shop do.</summary>
internal sealed class ShopClock(TimeZoneInfo zone, DateTimeOffset now)
{
    private const int EarliestYear = 1900;
    private const int LatestYear = 2199;

    private static readonly TimeSpan CountedInDays = TimeSpan.FromDays(2);

    public DateTimeOffset Now => now;

    public TimeZoneInfo Zone => zone;

    public Moment? Of(DateTimeOffset? at) => at is { } instant ? Of(instant) : null;

    public Moment Of(DateTimeOffset at) => new(at, WallClock.Of(at, now, zone), Away(at));

    /// <summary>Reads a date and time as a form sends it, on the shop's wall clock.</summary>
    /// <returns>The instant, the later one where the clocks show it twice; null where it is none, or the clocks skip it.</returns>
    /// <remarks>The offsets of the days around are tried: zones differ in what they call summer time, and answer for such hours accordingly.</remarks>
    public DateTimeOffset? Read(string local)
    {
        if (!DateTime.TryParseExact(local, ["yyyy-MM-dd'T'HH:mm", "yyyy-MM-dd'T'HH:mm:ss"], null, default, out DateTime wall)
            || wall.Year is not (>= EarliestYear and <= LatestYear))
        {
            return null;
        }

        return new[] { wall.AddDays(-1), wall.AddDays(1) }
            .Select(day => (DateTimeOffset?)new DateTimeOffset(wall, zone.GetUtcOffset(day)))
            .Where(at => TimeZoneInfo.ConvertTime(at!.Value, zone).DateTime == wall)
            .Max();
    }

    private Sentence Away(DateTimeOffset at)
    {
        TimeSpan length = (at - now).Duration();
        bool isAhead = at >= now;
        if (length >= CountedInDays)
        {
            return isAhead ? (Sentence)$"in {(int)length.TotalDays} days" : $"{(int)length.TotalDays} days ago";
        }

        if (length < TimeSpan.FromMinutes(1))
        {
            return isAhead ? (Sentence)$"in less than a minute" : $"less than a minute ago";
        }

        return isAhead ? (Sentence)$"in {Length(length)}" : $"{Length(length)} ago";
    }

    public static Sentence Length(TimeSpan span) =>
        span < TimeSpan.FromMinutes(1) ? (Sentence)$"less than a minute"
        : span < TimeSpan.FromHours(1) ? (Sentence)$"{span.Minutes} min"
        : span < CountedInDays ? (Sentence)$"{(int)span.TotalHours} h {span.Minutes:00} min"
        : $"{(int)span.TotalDays} days";
}
