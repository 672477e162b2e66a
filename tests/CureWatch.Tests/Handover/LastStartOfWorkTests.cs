using System.Collections.Immutable;
using CureWatch.Handover;

namespace CureWatch.Tests.Handover;

/// <summary>The last start is the other side of "done after work": one instant later, and the work is late.</summary>
public class LastStartOfWorkTests
{
    private static readonly TimeZoneInfo Dublin = TimeZoneInfo.FindSystemTimeZoneById("Europe/Dublin");

    private static readonly OpeningHours Hours = new(Dublin, Enum.GetValues<DayOfWeek>().Where(d => d != DayOfWeek.Sunday).ToImmutableDictionary(
        d => d, d => d == DayOfWeek.Saturday ? [Stretch(9, 12.5), Stretch(13.5, 16)] : ImmutableArray.Create(Stretch(8, 18))));

    [Theory]
    [InlineData("2026-05-05T10:00+01:00", 75, "2026-05-05T08:45+01:00")]
    [InlineData("2026-05-05T09:00+01:00", 75, "2026-05-04T17:45+01:00")]
    [InlineData("2026-05-05T20:00+01:00", 75, "2026-05-05T16:45+01:00")]
    [InlineData("2026-05-05T07:00+01:00", 0, "2026-05-04T18:00+01:00")]
    [InlineData("2026-05-11T08:30+01:00", 60, "2026-05-09T15:30+01:00")]
    public void LastStart_IsInsideOpeningHours(string by, int minutes, string expected) =>
        Assert.Equal(At(expected), Hours.LastStart(At(by), TimeSpan.FromMinutes(minutes)));

    [Fact]
    public void LastStart_OneInstantLater_IsTooLate()
    {
        var random = new Random(20260504);
        for (int i = 0; i < 2_000; i++)
        {
            DateTimeOffset by = At("2026-03-25T00:00+00:00") + TimeSpan.FromMinutes(random.Next(220 * 24 * 60));
            TimeSpan work = TimeSpan.FromMinutes(random.Next(14 * 60));
            DateTimeOffset last = Hours.LastStart(by, work)!.Value;
            Assert.True(Hours.AfterWork(last, work) <= by, $"{by} {work}");
            Assert.True(Hours.AfterWork(last.AddTicks(1), work) > by, $"{by} {work}");
        }
    }

    [Fact]
    public void LastStart_InAShopThatIsNeverOpen_IsNone() =>
        Assert.Null(new OpeningHours(Dublin, ImmutableDictionary<DayOfWeek, ImmutableArray<OpenStretch>>.Empty).LastStart(At("2026-05-05T10:00+01:00"), TimeSpan.Zero));

    private static OpenStretch Stretch(double from, double to) => new(TimeSpan.FromHours(from), TimeSpan.FromHours(to));

    private static DateTimeOffset At(string text) => DateTimeOffset.Parse(text, System.Globalization.CultureInfo.InvariantCulture);
}
