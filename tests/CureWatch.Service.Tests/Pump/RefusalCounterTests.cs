using CureWatch.Readings;
using CureWatch.Service.Journal;
using CureWatch.Service.Pump;

namespace CureWatch.Service.Tests.Pump;

public sealed class RefusalCounterTests
{
    private readonly SetClock _time = new();
    private readonly RefusalCounter _counter;

    public RefusalCounterTests() => _counter = new RefusalCounter(_time);

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
}
