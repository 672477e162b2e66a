using CureWatch.Readings;
using CureWatch.Service.Journal;
using CureWatch.Service.Pump;
using CureWatch.Service.Tests.Journal;

namespace CureWatch.Service.Tests.Pump;

public sealed class RefusalCounterTests
{
    private readonly RefusalCounter _counter = new();

    [Fact]
    public void Probe_AmongThousandsNobodySetUp_IsStillCountedByItsName()
    {
        for (int i = 0; i < 10_000; i++)
        {
            _counter.Count(Disbelief.UnknownProbe, $"bay-1/made-up-{i}");
        }

        _counter.Count(Disbelief.Malformed, "bay-1/air");

        Entry.RefusalsCounted counted = _counter.Take(Entries.At)!;
        Assert.Contains(new RefusalCount("malformed", "bay-1/air", 1), counted.Counts);
        Assert.True(counted.Counts.Length < 1_000);
        Assert.Equal(10_001, counted.Counts.Sum(c => c.Count));
    }
}
