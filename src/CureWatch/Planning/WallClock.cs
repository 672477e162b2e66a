using CureWatch.Words;

namespace CureWatch.Planning;

/// <summary>Says an instant as people in the shop do: the time today, with its weekday for six days around, with its date beyond.</summary>
public static class WallClock
{
    private const int DaysOfAWeek = 6;

    /// <summary>Says an instant.</summary>
    /// <param name="at">The instant.</param>
    /// <param name="now">The present.</param>
    /// <param name="zone">The shop's time zone.</param>
    /// <returns>The words, such as <c>09:15</c>, <c>Tue 09:15</c> or <c>Tue 12 May 09:15</c>.</returns>
    public static Sentence Of(DateTimeOffset at, DateTimeOffset now, TimeZoneInfo zone)
    {
        DateTime wall = TimeZoneInfo.ConvertTime(at, zone).DateTime;
        int days = Math.Abs((wall.Date - TimeZoneInfo.ConvertTime(now, zone).Date).Days);
        return Sentence.Of(new Figure.Clock(wall, days == 0 ? "HH:mm" : days <= DaysOfAWeek ? "ddd HH:mm" : "ddd d MMM HH:mm"));
    }
}
