using System.Collections.Immutable;
using System.Globalization;
using CsCheck;
using CureWatch.Handover;

namespace CureWatch.Tests.Handover;

/// <summary>Hands-on work inside opening hours. Irish summer time 2026 runs from 29 March 01:00 to 25 October 01:00 UTC (EU directive 2000/84/EC).</summary>
public class AfterWorkTests
{
    private static readonly TimeZoneInfo Dublin = TimeZoneInfo.FindSystemTimeZoneById("Europe/Dublin");

    // Weekdays 8 to 18, Saturday 9 to 13, Sunday closed; 4 May 2026 is a Monday.
    private static readonly OpeningHours Weekdays = new(Dublin, Enum.GetValues<DayOfWeek>()
        .Where(d => d != DayOfWeek.Sunday)
        .ToImmutableDictionary(d => d, d => Day(d == DayOfWeek.Saturday ? (9, 13) : (8, 18))));

    [Theory]
    [InlineData("2026-05-04T10:00+01:00", 75, "2026-05-04T11:15+01:00")]
    [InlineData("2026-05-04T05:00+01:00", 75, "2026-05-04T09:15+01:00")]
    [InlineData("2026-05-04T16:45+01:00", 75, "2026-05-04T18:00+01:00")]
    [InlineData("2026-05-04T17:30+01:00", 75, "2026-05-05T08:45+01:00")]
    [InlineData("2026-05-04T18:00+01:00", 75, "2026-05-05T09:15+01:00")]
    [InlineData("2026-05-05T04:40+01:00", 75, "2026-05-05T09:15+01:00")]
    [InlineData("2026-05-09T12:00+01:00", 75, "2026-05-11T08:15+01:00")]
    [InlineData("2026-05-10T12:00+01:00", 75, "2026-05-11T09:15+01:00")]
    [InlineData("2026-05-04T08:00+01:00", 25 * 60, "2026-05-06T13:00+01:00")]
    [InlineData("2026-05-04T20:00+01:00", 0, "2026-05-05T08:00+01:00")]
    [InlineData("2026-05-04T12:00+01:00", 0, "2026-05-04T12:00+01:00")]
    public void Work_GoesOnOnlyWhileTheShopIsOpen(string from, int minutes, string expected) => AssertAfter(expected, Weekdays, from, minutes);

    [Theory]
    [InlineData("2026-03-28T12:30+00:00", 75, "2026-03-30T08:45+01:00")]
    [InlineData("2026-10-24T12:30+01:00", 75, "2026-10-26T08:45+00:00")]
    public void Work_OverTheNightTheClocksChange_GoesOnByTheWallClock(string from, int minutes, string expected) =>
        AssertAfter(expected, Weekdays, from, minutes);

    [Theory]
    [InlineData("2026-03-28T22:00+00:00", 300, "2026-03-29T04:00+01:00")]
    [InlineData("2026-10-24T23:00+01:00", 300, "2026-10-25T03:00+00:00")]
    [InlineData("2026-05-04T23:30+01:00", 60, "2026-05-05T00:30+01:00")]
    public void Work_InAShopThatNeverCloses_TakesAsLongAsItTakes(string from, int minutes, string expected) =>
        AssertAfter(expected, EveryDay((0, 24)), from, minutes);

    // The hour from 01:00 to 02:00 is missing on 29 March and comes twice on 25 October.
    [Theory]
    [InlineData("2026-03-29T00:00+00:00", 30, "2026-03-29T02:30+01:00")]
    [InlineData("2026-03-29T00:00+00:00", 90, "2026-03-30T01:45+01:00")]
    [InlineData("2026-10-25T03:30+00:00", 30, "2026-10-26T01:45+00:00")]
    public void Work_InAStretchThatBeginsInTheMissingHour_BeginsAfterIt(string from, int minutes, string expected) =>
        AssertAfter(expected, EveryDay((1.25, 3)), from, minutes);

    [Fact]
    public void Work_OfFourHours_FitsFromMidnightToThree_WhenAnHourComesTwice() =>
        AssertAfter("2026-10-25T03:00+00:00", EveryDay((0, 3)), "2026-10-25T00:00+01:00", 240);

    [Theory]
    [InlineData("2026-05-04T11:50+01:00", 20, "2026-05-04T13:10+01:00")]
    [InlineData("2026-05-04T12:30+01:00", 20, "2026-05-04T13:20+01:00")]
    public void Work_PausesAtNoon(string from, int minutes, string expected) => AssertAfter(expected, EveryDay((8, 12), (13, 18)), from, minutes);

    [Fact]
    public void Work_IsDoneOnTheShopsOwnDay()
    {
        OpeningHours mondays = new(
            TimeZoneInfo.FindSystemTimeZoneById("America/Los_Angeles"), ImmutableDictionary<DayOfWeek, ImmutableArray<OpenStretch>>.Empty.Add(DayOfWeek.Monday, Day((8, 20))));
        AssertAfter("2026-05-04T19:30-07:00", mondays, "2026-05-05T02:00+00:00", 30);
    }

    [Fact]
    public void Work_InAShopThatNeverOpens_IsNeverDone() =>
        Assert.Null(new OpeningHours(Dublin, ImmutableDictionary<DayOfWeek, ImmutableArray<OpenStretch>>.Empty).AfterWork(At("2026-05-04T10:00Z"), TimeSpan.FromHours(1)));

    [Fact]
    public void Work_EndsInOpeningHours_AndNoEarlierForMoreOfItOrALaterStart() =>
        Gen.Select(Gen.Int[0, 366 * 24 * 60], Gen.Int[1, 3000], Gen.Int[0, 300], Gen.Int[0, 300]).Sample((minute, work, more, later) =>
        {
            DateTimeOffset from = At("2026-01-01T00:00Z") + TimeSpan.FromMinutes(minute);
            DateTimeOffset end = Weekdays.AfterWork(from, TimeSpan.FromMinutes(work))!.Value;
            DateTime local = TimeZoneInfo.ConvertTime(end, Dublin).DateTime;
            OpenStretch open = Assert.Single(Weekdays.Open![local.DayOfWeek]);
            Assert.InRange(local.TimeOfDay, open.From, open.To);
            Assert.True(end >= from + TimeSpan.FromMinutes(work));
            Assert.True(Weekdays.AfterWork(from, TimeSpan.FromMinutes(work + more)) >= end);
            Assert.True(Weekdays.AfterWork(from + TimeSpan.FromMinutes(later), TimeSpan.FromMinutes(work)) >= end);
        });

    private static OpeningHours EveryDay(params (double From, double To)[] stretches) =>
        new(Dublin, Enum.GetValues<DayOfWeek>().ToImmutableDictionary(d => d, _ => Day(stretches)));

    private static ImmutableArray<OpenStretch> Day(params (double From, double To)[] stretches) =>
        [.. stretches.Select(s => new OpenStretch(TimeSpan.FromHours(s.From), TimeSpan.FromHours(s.To)))];

    private static void AssertAfter(string expected, OpeningHours hours, string from, int minutes) =>
        Assert.Equal(At(expected), hours.AfterWork(At(from), TimeSpan.FromMinutes(minutes)));

    private static DateTimeOffset At(string text) => DateTimeOffset.Parse(text, CultureInfo.InvariantCulture);
}
