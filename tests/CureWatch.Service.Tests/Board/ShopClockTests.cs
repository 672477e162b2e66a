using CureWatch.Service.Board;

namespace CureWatch.Service.Tests.Board;

public class ShopClockTests
{
    private static readonly DateTimeOffset Now = new(2026, 5, 4, 8, 0, 0, TimeSpan.Zero);
    private readonly ShopClock _clock = new(TimeZoneInfo.FindSystemTimeZoneById("Europe/Dublin"), Now);

    [Theory]
    [InlineData(0, "09:00", "in less than a minute")]
    [InlineData(-0.5, "08:59", "less than a minute ago")]
    [InlineData(75, "10:15", "in 1 h 15 min")]
    [InlineData(-12, "08:48", "12 min ago")]
    [InlineData(20 * 60, "Tue 05:00", "in 20 h 00 min")]
    [InlineData(-10 * 60, "Sun 23:00", "10 h 00 min ago")]
    [InlineData(10 * 24 * 60, "Thu 14 May 09:00", "in 10 days")]
    public void Moment_IsSaidInTheShopsTime(double minutes, string text, string away)
    {
        Moment moment = _clock.Of(Now.AddMinutes(minutes));
        Assert.Equal((text, away), (moment.Text.ToString(), moment.Away.ToString()));
    }

    [Fact]
    public void Time_ThatTheClocksShowTwice_IsTheSecondOne() =>
        Assert.Equal(new DateTimeOffset(2026, 10, 25, 1, 30, 0, TimeSpan.Zero), _clock.Read("2026-10-25T01:30")!.Value.ToUniversalTime());

    [Theory]
    [InlineData("2026-03-29T01:30")]
    [InlineData("0001-01-01T00:00")]
    [InlineData("2026-05-04")]
    [InlineData("")]
    public void Time_ThatIsNone_IsNull(string local) => Assert.Null(_clock.Read(local));
}
