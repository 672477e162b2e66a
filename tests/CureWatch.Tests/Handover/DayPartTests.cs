using System.Collections.Immutable;
using System.Globalization;
using CsCheck;
using CureWatch.Handover;
using CureWatch.Planning;

namespace CureWatch.Tests.Handover;

public class DayPartTests
{
    private static readonly TimeZoneInfo Dublin = TimeZoneInfo.FindSystemTimeZoneById("Europe/Dublin");

    /// <summary>Open from 8 to 12 and from 13 to 18 on every day but Sunday.</summary>
    private static readonly OpeningHours Usual = Open([new(TimeSpan.FromHours(8), TimeSpan.FromHours(12)), new(TimeSpan.FromHours(13), TimeSpan.FromHours(18))]);

    // In Dublin the clocks skip 01:00 to 02:00 on Sunday 29 March 2026 (tz database, rule EU): on Monday the shop opens at 07:00 UTC, on Saturday at 08:00.
    [Theory]
    [InlineData("2026-03-28T07:59:59Z", DayPart.Closed)]
    [InlineData("2026-03-28T08:00:00Z", DayPart.Morning)]
    [InlineData("2026-03-28T08:59:59Z", DayPart.Morning)]
    [InlineData("2026-03-28T09:00:00Z", DayPart.Work)]
    [InlineData("2026-03-28T12:30:00Z", DayPart.Work)]
    [InlineData("2026-03-28T16:59:59Z", DayPart.Work)]
    [InlineData("2026-03-28T17:00:00Z", DayPart.LockUp)]
    [InlineData("2026-03-28T17:59:59Z", DayPart.LockUp)]
    [InlineData("2026-03-28T18:00:00Z", DayPart.Closed)]
    [InlineData("2026-03-29T12:00:00Z", DayPart.Closed)]
    [InlineData("2026-03-30T06:59:59Z", DayPart.Closed)]
    [InlineData("2026-03-30T07:00:00Z", DayPart.Morning)]
    [InlineData("2026-03-30T16:00:00Z", DayPart.LockUp)]
    public void Part_IsByTheShopsOwnClock(string at, DayPart expected) => Assert.Equal(expected, DayParts.At(Usual, At(at)));

    [Fact]
    public void ShopThatNeverClosesOrNeverOpens_KnowsNeitherLockUpNorMorning()
    {
        OpeningHours never = Usual with { Open = ImmutableDictionary<DayOfWeek, ImmutableArray<OpenStretch>>.Empty };
        for (int hour = 0; hour < 48; hour++)
        {
            Assert.Equal(DayPart.Work, DayParts.At(OpeningHours.Always(Dublin), At("2026-05-04T00:00:00Z").AddHours(hour)));
            Assert.Equal(DayPart.Work, DayParts.At(never, At("2026-05-04T00:00:00Z").AddHours(hour)));
        }
    }

    [Fact]
    public void DayThatGoesOnPastMidnight_HasNoSecondMorning()
    {
        var late = new OpeningHours(TimeZoneInfo.Utc, ImmutableDictionary<DayOfWeek, ImmutableArray<OpenStretch>>.Empty
            .Add(DayOfWeek.Friday, [new(TimeSpan.FromHours(16), TimeSpan.FromHours(24))]).Add(DayOfWeek.Saturday, [new(TimeSpan.Zero, TimeSpan.FromHours(3))]));
        Assert.Equal(DayPart.Morning, DayParts.At(late, At("2026-05-08T16:30:00Z")));
        Assert.Equal(DayPart.Work, DayParts.At(late, At("2026-05-08T23:30:00Z")));
        Assert.Equal(DayPart.Work, DayParts.At(late, At("2026-05-09T00:30:00Z")));
        Assert.Equal(DayPart.LockUp, DayParts.At(late, At("2026-05-09T02:30:00Z")));
    }

    // Whatever the hours: lock-up ends at a closing, and nobody is told good night while the shop is shut.
    [Fact]
    public void LockUp_EndsWhereTheDayDoes()
    {
        Gen.Select(Gen.Int[0, 40], Gen.Int[1, 48], Gen.Int[0, 20_000]).Sample((half, length, minutes) =>
        {
            OpeningHours hours = Open([new(TimeSpan.FromHours(half / 2.0), TimeSpan.FromHours(Math.Min(24, (half + length) / 2.0)))]);
            DateTimeOffset at = At("2026-03-23T00:00:00Z").AddMinutes(minutes);
            ShopDay day = hours.DayAt(at)!;
            DayPart part = DayParts.At(hours, at);
            Assert.Equal(at < day.Opens, part == DayPart.Closed);
            Assert.Equal(at >= day.Opens && day.LocksUp - at <= TimeSpan.FromHours(1), part == DayPart.LockUp);
        });
    }

    private static OpeningHours Open(ImmutableArray<OpenStretch> day) =>
        new(Dublin, Enum.GetValues<DayOfWeek>().Where(d => d != DayOfWeek.Sunday).ToImmutableDictionary(d => d, _ => day));

    private static DateTimeOffset At(string instant) => DateTimeOffset.Parse(instant, CultureInfo.InvariantCulture);
}
