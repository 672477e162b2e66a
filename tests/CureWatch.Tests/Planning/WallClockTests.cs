using CureWatch.Planning;
using static CureWatch.Tests.Planning.StartCase;

namespace CureWatch.Tests.Planning;

/// <summary>An instant is said so that it is not taken for another day's. Now is a Monday, 10:00.</summary>
public class WallClockTests
{
    [Theory]
    [InlineData(2, "12:00")]
    [InlineData(26, "Tue 12:00")]
    [InlineData(-26, "Sun 08:00")]
    [InlineData((6 * 24) + 13, "Sun 23:00")]
    [InlineData((7 * 24) + 2, "Mon 11 May 12:00")]
    [InlineData(-7 * 24, "Mon 27 Apr 10:00")]
    public void Instant_IsSaidWithItsDayOrDate(double hours, string words)
    {
        Assert.Equal(words, WallClock.Of(At(hours * 60), Now, TimeZoneInfo.Utc).ToString());
        Assert.Equal(words, Day.Clock(At(hours * 60)).ToString());
    }
}
