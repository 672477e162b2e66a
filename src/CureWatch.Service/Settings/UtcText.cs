namespace CureWatch.Service.Settings;

/// <summary>An instant as it is written for scripts: ISO 8601 in UTC, to the millisecond.</summary>
internal static class UtcText
{
    public static string Of(DateTimeOffset at)
    {
        long milliseconds = (at.UtcTicks + (TimeSpan.TicksPerMillisecond / 2)) / TimeSpan.TicksPerMillisecond;
        return new DateTime(milliseconds * TimeSpan.TicksPerMillisecond, DateTimeKind.Utc).ToString("yyyy-MM-dd'T'HH:mm:ss.FFF'Z'");
    }
}
