using System.Collections.Immutable;
using System.Globalization;
using CureWatch.Handover;
using CureWatch.Planning;

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

    /// <summary>What goes on past midnight is the evening before's day, and the hours between two days are night, however they are written.</summary>
    [Theory]
    [InlineData("2026-05-08T20:00:00Z", "2026-05-08T09:00:00Z", "2026-05-09T01:00:00Z")]
    [InlineData("2026-05-09T00:30:00Z", "2026-05-08T09:00:00Z", "2026-05-09T01:00:00Z")]
    [InlineData("2026-05-09T04:00:00Z", "2026-05-09T09:00:00Z", "2026-05-09T18:00:00Z")]
    [InlineData("2026-05-12T15:00:00Z", "2026-05-12T14:00:00Z", "2026-05-13T02:00:00Z")]
    [InlineData("2026-05-13T01:59:59Z", "2026-05-12T14:00:00Z", "2026-05-13T02:00:00Z")]
    [InlineData("2026-05-13T02:00:00Z", "2026-05-13T14:00:00Z", "2026-05-14T02:00:00Z")]
    [InlineData("2026-05-14T05:00:00Z", null, null)]
    public void Day_ThatGoesOnPastMidnight_EndsWhereItsStretchDoes(string now, string? opens, string? locksUp)
    {
        OpenStretch[] early = [Hours(0, 2)], both = [Hours(0, 2), Hours(14, 24)];
        var hours = new OpeningHours(TimeZoneInfo.Utc, ImmutableDictionary<DayOfWeek, ImmutableArray<OpenStretch>>.Empty
            .Add(DayOfWeek.Friday, [Hours(9, 24)]).Add(DayOfWeek.Saturday, [Hours(0, 1), Hours(9, 18)])
            .Add(DayOfWeek.Tuesday, [Hours(14, 24)]).Add(DayOfWeek.Wednesday, [.. both]).Add(DayOfWeek.Thursday, [.. early]));
        ShopDay day = hours.DayAt(At(now))!;
        Assert.Equal(opens is null ? At("2026-05-15T09:00:00Z") : At(opens), day.Opens);
        Assert.Equal(locksUp is null ? At("2026-05-16T01:00:00Z") : At(locksUp), day.LocksUp);
    }

    [Fact]
    public void ShopThatIsOpenEveryEveningPastMidnight_LocksUpEachNight()
    {
        var hours = new OpeningHours(TimeZoneInfo.Utc, Enum.GetValues<DayOfWeek>().ToImmutableDictionary(d => d, _ => ImmutableArray.Create(Hours(0, 2), Hours(14, 24))));
        Assert.Equal(new ShopDay(At("2026-05-08T14:00:00Z"), At("2026-05-09T02:00:00Z")), hours.DayAt(At("2026-05-09T01:00:00Z")));
        Assert.Equal(new ShopDay(At("2026-05-09T14:00:00Z"), At("2026-05-10T02:00:00Z")), hours.DayAt(At("2026-05-09T05:00:00Z")));
        Assert.Null(OpeningHours.Always(TimeZoneInfo.Utc).DayAt(At("2026-05-09T05:00:00Z"))!.LocksUp);
    }

    private static OpenStretch Hours(double from, double to) => new(TimeSpan.FromHours(from), TimeSpan.FromHours(to));

    private static DateTimeOffset At(string instant) => DateTimeOffset.Parse(instant, CultureInfo.InvariantCulture);
}
