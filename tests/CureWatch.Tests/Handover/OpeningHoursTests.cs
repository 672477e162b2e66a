using System.Collections.Immutable;
using System.Globalization;
using CureWatch.Handover;

namespace CureWatch.Tests.Handover;

public class OpeningHoursTests
{
    private static readonly TimeZoneInfo Dublin = TimeZoneInfo.FindSystemTimeZoneById("Europe/Dublin");

    /// <summary>In Dublin the clocks skip 01:00 to 02:00 on 29 March 2026 and show it twice on 25 October (tz database, rule EU).</summary>
    [Theory]
    [InlineData("2026-03-29T00:00:00Z", 0.5, 3, 60, "2026-03-29T01:30:00Z")]
    [InlineData("2026-03-29T00:00:00Z", 0.5, 3, 90, "2026-03-29T02:00:00Z")]
    [InlineData("2026-03-29T00:00:00Z", 1.5, 3, 60, "2026-03-29T02:00:00Z")]
    [InlineData("2026-03-29T00:00:00Z", 0.5, 3, 91, "2026-04-04T23:31:00Z")]
    [InlineData("2026-10-24T23:00:00Z", 0.5, 3, 180, "2026-10-25T02:30:00Z")]
    [InlineData("2026-10-24T23:00:00Z", 0.5, 3, 210, "2026-10-25T03:00:00Z")]
    [InlineData("2026-10-24T23:00:00Z", 0.5, 3, 211, "2026-11-01T00:31:00Z")]
    public void Work_OnADayOnWhichTheClocksChange_TakesTheTimeThatPasses(string from, double opens, double closes, int minutes, string done)
    {
        var sunday = new OpenStretch(TimeSpan.FromHours(opens), TimeSpan.FromHours(closes));
        var hours = new OpeningHours(Dublin, ImmutableDictionary<DayOfWeek, ImmutableArray<OpenStretch>>.Empty.Add(DayOfWeek.Sunday, [sunday]));
        Assert.Equal(At(done), hours.AfterWork(At(from), TimeSpan.FromMinutes(minutes)));
    }

    [Fact]
    public void Always_IsEveryDayFromMidnightToMidnight()
    {
        OpeningHours hours = OpeningHours.Always(TimeZoneInfo.Utc);

        Assert.Equal(7, hours.Open.Count);
        Assert.All(hours.Open.Values, day => Assert.Equal(new OpenStretch(TimeSpan.Zero, TimeSpan.FromHours(24)), Assert.Single(day)));
    }

    private static DateTimeOffset At(string instant) => DateTimeOffset.Parse(instant, CultureInfo.InvariantCulture);
}
