using CureWatch.Service.Backups;

namespace CureWatch.Service.Tests.Backups;

public class BackupHourTests
{
    private static readonly TimeZoneInfo Dublin = TimeZoneInfo.FindSystemTimeZoneById("Europe/Dublin");

    /// <summary>Europe/Dublin 2026: the clocks skip 01:00 to 02:00 on 29 March, and show it twice on 25 October (directive 2000/84/EC).</summary>
    [Theory]
    [InlineData("2026-05-04T12:00:00Z", "03:30", "2026-05-04T02:30:00Z")]
    [InlineData("2026-05-04T02:30:00Z", "03:30", "2026-05-04T02:30:00Z")]
    [InlineData("2026-05-04T02:29:59Z", "03:30", "2026-05-03T02:30:00Z")]
    [InlineData("2026-05-04T23:30:00Z", "00:10", "2026-05-04T23:10:00Z")]
    [InlineData("2026-03-29T12:00:00Z", "01:30", "2026-03-29T01:00:00Z")]
    [InlineData("2026-10-25T12:00:00Z", "01:30", "2026-10-25T00:30:00Z")]
    [InlineData("2026-10-25T01:00:00Z", "01:30", "2026-10-25T00:30:00Z")]
    public void Last_IsWhenTheShopsClockShowedIt(string now, string at, string expected) =>
        Assert.Equal(At(expected), BackupHour.Last(At(now), TimeOnly.Parse(at), Dublin));

    private static DateTimeOffset At(string text) => DateTimeOffset.Parse(text);
}
