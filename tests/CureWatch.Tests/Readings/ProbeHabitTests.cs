using CureWatch.Readings;
using static CureWatch.Tests.Readings.Feed;

namespace CureWatch.Tests.Readings;

/// <summary>Frozen probes, as a probe's log sees them: judged by the probe's own habit.</summary>
public class ProbeHabitTests
{
    [Fact]
    public void Probe_ConstantFromTheStart_IsBelieved()
    {
        Feed feed = new(Air);
        Assert.All(Enumerable.Range(0, 48 * 60), minute => Assert.Null(feed.Tell(minute, 20, 50)));
    }

    [Theory]
    [InlineData(9, null)]
    [InlineData(10, Disbelief.Frozen)]
    public void Probe_IsKnownToChange_AfterTenChanges(int changes, Disbelief? expected)
    {
        Feed feed = Changing(changes, everyMinutes: 1);
        Assert.Equal(expected, Repeat(feed, changes, untilMinute: changes + 61).Last());
    }

    [Fact]
    public void Probe_ThatChangesEveryMinute_IsFrozenAfterAnHour()
    {
        Feed feed = Changing(10, everyMinutes: 1);
        Disbelief?[] answers = [.. Repeat(feed, 10, untilMinute: 10 + 90)];
        Assert.Equal(60, Array.IndexOf(answers, Disbelief.Frozen));
        Assert.All(answers[60..], a => Assert.Equal(Disbelief.Frozen, a));
        Assert.Equal(At(70), feed.Log.Air.Last.At);
    }

    [Fact]
    public void Probe_InAQuietBay_IsFrozenAfterTwelveOfItsLongestRuns()
    {
        Feed feed = Changing(10, everyMinutes: 20);
        Disbelief?[] answers = [.. Repeat(feed, 10, untilMinute: 200 + 300)];
        Assert.Equal(12 * 20, Array.IndexOf(answers, Disbelief.Frozen));
    }

    [Fact]
    public void FrozenProbe_IsBelievedAgainWhenItChanges_AndIsNoMorePatientlyWaitedFor()
    {
        Feed feed = Changing(10, everyMinutes: 1);
        _ = Repeat(feed, 10, untilMinute: 10 + 600).Last();
        Assert.Null(feed.Tell(611, 20.2, 50));
        Disbelief?[] answers = [.. Enumerable.Range(612, 90).Select(minute => feed.Tell(minute, 20.2, 50))];
        Assert.Equal(60, Array.IndexOf(answers, Disbelief.Frozen));
    }

    // What tells whole kelvins may say the same all night; what it is used to is known from a day on.
    [Theory]
    [InlineData(12, null)]
    [InlineData(36, Disbelief.Frozen)]
    public void CoarseProbe_IsJudgedByItsHabit_FromADayOn(int hour, Disbelief? expected)
    {
        Feed feed = new(Panel);
        for (int minute = 0; minute <= hour * 60; minute++)
        {
            feed.Tell(minute, null, null, 20 + (minute / 20 % 2));
        }

        Disbelief?[] answers = [.. Enumerable.Range((hour * 60) + 1, 11 * 60).Select(minute => feed.Tell(minute, null, null, 20 + (hour * 3 % 2)))];
        Assert.Equal(expected, answers[^1]);
        Assert.Null(answers[(9 * 60) + 30]);
    }

    [Fact]
    public void Silence_IsNoRepetition()
    {
        Feed feed = Changing(10, everyMinutes: 1);
        Assert.Null(feed.Tell(10 + 120, 20, 50));
    }

    [Fact]
    public void FrozenProbe_IsNotHeard()
    {
        Feed feed = Changing(10, everyMinutes: 1);
        _ = Repeat(feed, 10, untilMinute: 10 + 90).Last();
        Assert.Equal(At(70 + 3), feed.Log.SilentAt);
    }

    [Fact]
    public void Probe_WhoseHumidityMoves_IsNotFrozen()
    {
        Feed feed = Changing(10, everyMinutes: 1);
        Assert.All(Enumerable.Range(11, 600), minute => Assert.Null(feed.Tell(minute, 20, 50 + (minute % 2))));
    }

    [Fact]
    public void PanelProbe_IsJudgedByItsPanel()
    {
        Feed feed = new(Panel);
        for (int change = 0; change <= 10; change++)
        {
            feed.Tell(change, null, null, Value(change));
        }

        Disbelief?[] answers = [.. Enumerable.Range(11, 61).Select(minute => feed.Tell(minute, null, null, Value(10)))];
        Assert.Equal(60, Array.IndexOf(answers, Disbelief.Frozen));
    }

    private static Feed Changing(int changes, int everyMinutes)
    {
        Feed feed = new(Air);
        for (int minute = 0; minute <= changes * everyMinutes; minute++)
        {
            Assert.Null(feed.Tell(minute, Value(minute / everyMinutes), 50));
        }

        return feed;
    }

    private static List<Disbelief?> Repeat(Feed feed, int changes, int untilMinute)
    {
        int from = (int)(feed.Log.Air.Last.At - Start).TotalMinutes + 1;
        return [.. Enumerable.Range(from, untilMinute - from + 1).Select(minute => feed.Tell(minute, Value(changes), 50))];
    }

    private static double Value(int change) => 20 + (0.1 * (change % 2));
}
