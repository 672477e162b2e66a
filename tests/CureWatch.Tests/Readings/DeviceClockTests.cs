using CureWatch.Readings;
using static CureWatch.Tests.Readings.Feed;

namespace CureWatch.Tests.Readings;

public class DeviceClockTests
{
    private readonly Random _chance = new(1);

    [Fact]
    public void Clock_NeverHeard_IsUnknown() => Assert.Equal((null, null), Of(DeviceClock.Unknown));

    [Fact]
    public void Device_WithoutAClock_SaysNothingOfIt() =>
        Assert.Equal((null, null), Of(DeviceClock.Unknown.Hear(new RawReading("b", "p", Start, Start, 20, 50, null, HasClock: false))));

    [Theory]
    [InlineData(0)]
    [InlineData(-437)]
    [InlineData(86_400)]
    public void Offset_IsFoundUnderTheJitterOfTheNetwork(double offsetSeconds)
    {
        DeviceClock clock = Hear(DeviceClock.Unknown, 0, 60, _ => offsetSeconds);
        Assert.Equal(offsetSeconds, clock.OffsetSeconds!.Value, 0.5);
        Assert.Null(clock.DriftSecondsPerDay);
    }

    [Theory]
    [InlineData(20)]
    [InlineData(-5)]
    [InlineData(0)]
    public void Drift_IsFoundUnderTheJitterOfTheNetwork(double secondsPerDay)
    {
        DeviceClock clock = Hear(DeviceClock.Unknown, 0, 480, minute => 3 + (secondsPerDay * minute / 1_440));
        Assert.Equal(secondsPerDay, clock.DriftSecondsPerDay!.Value, 1.5);
        Assert.Equal(3 + (secondsPerDay / 3), clock.OffsetSeconds!.Value, 0.5);
    }

    [Fact]
    public void Backlog_AfterAnOutage_MovesNothing()
    {
        DeviceClock before = Hear(DeviceClock.Unknown, 0, 120, _ => 30);
        DeviceClock after = before;
        for (int minute = 120; minute < 165; minute++)
        {
            after = after.Hear(Raw(minute + 0.5, 165)); // all at once, 45 minutes to one minute late
        }

        after = Hear(after, 165, 200, _ => 30);
        Assert.Equal(before.OffsetSeconds!.Value, after.OffsetSeconds!.Value, 0.5);
        Assert.Equal(0, after.DriftSecondsPerDay!.Value, 10.0);
    }

    [Theory]
    [InlineData(-600)]
    [InlineData(600)]
    public void Clock_ThatWasSet_IsKnownAnewAfterTwoWindows_AndBeginsItsDriftAnew(double stepSeconds)
    {
        DeviceClock clock = Hear(DeviceClock.Unknown, 0, 200, _ => 0);
        Assert.NotNull(clock.DriftSecondsPerDay);
        clock = Hear(clock, 200, 225, _ => stepSeconds);
        Assert.Equal(stepSeconds, clock.OffsetSeconds!.Value, 0.5);
        Assert.Null(clock.DriftSecondsPerDay);
        clock = Hear(clock, 225, 400, _ => stepSeconds);
        Assert.Equal(0, clock.DriftSecondsPerDay!.Value, 2.0);
    }

    [Fact]
    public void Readings_NobodyBelieves_TellTheClockAllTheSame()
    {
        var log = new ProbeLog(Air, Start);
        var dayAhead = new RawReading("bay-1", "air-1", Start.AddDays(1), Start, 20, 50, null);
        Assert.Equal(Disbelief.Future, log.Doubt(dayAhead));
        Assert.Equal(86_400, log.Time(dayAhead, Disbelief.Future).Clock.OffsetSeconds);
    }

    private static (double?, double?) Of(DeviceClock clock) => (clock.OffsetSeconds, clock.DriftSecondsPerDay);

    private static RawReading Raw(double measuredMinute, double arrivedMinute) =>
        new("bay-1", "air-1", At(measuredMinute), At(arrivedMinute), 20, 50, null);

    /// <summary>A reading each 20 s, a tenth of a second under way at least and up to 4 s more.</summary>
    private DeviceClock Hear(DeviceClock clock, double fromMinute, double toMinute, Func<double, double> offsetSeconds)
    {
        for (double minute = fromMinute; minute < toMinute; minute += 1.0 / 3)
        {
            double way = 0.1 + (4 * Math.Pow(_chance.NextDouble(), 3));
            clock = clock.Hear(Raw(minute + (offsetSeconds(minute) / 60), minute + (way / 60)));
        }

        return clock;
    }
}
