using CureWatch.Readings;
using CureWatch.Service.Journal;
using CureWatch.Service.Pump;
using CureWatch.Service.Tests.Mqtt;

namespace CureWatch.Service.Tests.Pump;

public sealed class RefusalCounterTests : IDisposable
{
    private readonly SetClock _time = new();
    private readonly RefusalCounter _counter;

    public RefusalCounterTests() => _counter = new RefusalCounter(_time, () => { });

    public void Dispose() => _counter.Dispose();

    [Fact]
    public void Probe_AmongThousandsNobodySetUp_IsStillCountedByItsName()
    {
        for (int i = 0; i < 10_000; i++)
        {
            _counter.Count(Disbelief.UnknownProbe, $"bay-1/made-up-{i}");
        }

        _counter.Count(Disbelief.Malformed, "bay-1/air");

        Entry.RefusalsCounted counted = _counter.Take()!;
        Assert.Contains(new RefusalCount("malformed", "bay-1/air", 1), counted.Counts);
        Assert.True(counted.Counts.Length < 1_000);
        Assert.Equal(10_001, counted.Counts.Sum(c => c.Count));
    }

    [Fact]
    public void Minute_IsCountedByTheTimeThatCannotBeSet()
    {
        _counter.Count(Disbelief.Malformed, "bay-1/air");
        Assert.NotNull(_counter.Take());
        _counter.Count(Disbelief.Malformed, "bay-1/air");
        Assert.Null(_counter.Take());
        _time.Set(TimeSpan.FromHours(-5));
        _time.Pass(TimeSpan.FromSeconds(61));
        Assert.NotNull(_counter.Take());
    }

    // Who sets a probe up waits to see what is wrong with it: the pump's own minute may come just before.
    [Fact]
    public async Task WhatIsRefused_IsJournalledWithinAMinute_ThoughNothingElseComes()
    {
        using var pumped = new Pumped();
        _ = await pumped.AskTogether([new Arrival.Refusal(Disbelief.Malformed, "bay-1/air-1")]);
        _ = await pumped.AskTogether([new Arrival.Refusal(Disbelief.Malformed, "bay-1/air-1")]);
        Assert.Equal(1, pumped.Register.Refusals[("malformed", "bay-1/air-1")]);
        pumped.Clock.Advance(TimeSpan.FromSeconds(60));
        await Eventually.TrueAsync(() => pumped.Register.Refusals[("malformed", "bay-1/air-1")] == 2, "the second to be counted");
    }
}
