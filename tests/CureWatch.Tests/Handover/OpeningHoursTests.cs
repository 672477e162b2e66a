using CureWatch.Handover;

namespace CureWatch.Tests.Handover;

public class OpeningHoursTests
{
    [Fact]
    public void Always_IsEveryDayFromMidnightToMidnight()
    {
        OpeningHours hours = OpeningHours.Always(TimeZoneInfo.Utc);

        Assert.Equal(7, hours.Open.Count);
        Assert.All(hours.Open.Values, day => Assert.Equal(new OpenStretch(TimeSpan.Zero, TimeSpan.FromHours(24)), Assert.Single(day)));
    }
}
