using CureWatch.Service.Commands;
using CureWatch.Service.Journal;
using CureWatch.Service.Pump;
using Microsoft.Extensions.Time.Testing;

namespace CureWatch.Service.Tests.Commands;

public sealed class ReadingProgressTests : IDisposable
{
    private static readonly DateTimeOffset Now = new(2026, 6, 11, 0, 0, 0, TimeSpan.Zero);

    private readonly FakeTimeProvider _time = new(Now);
    private readonly StringWriter _said = new();

    public void Dispose() => _said.Dispose();

    [Fact]
    public void Journal_ReadInAMoment_IsNotTalkedAbout()
    {
        var progress = new ReadingProgress(_time, _said);
        for (int entry = 1; entry <= 1_000; entry++)
        {
            Read(progress, entry, Now.AddDays(-100), TimeSpan.FromMilliseconds(9));
        }

        Assert.Empty(_said.ToString());
    }

    // A hundred days, of which a tenth was read in ten seconds.
    [Fact]
    public void Journal_ThatTakesLong_SaysWhereItIs_AndHowLongItTakesAtMost()
    {
        var progress = new ReadingProgress(_time, _said);
        Read(progress, 1, Now.AddDays(-100), TimeSpan.Zero);
        Read(progress, 2, Now.AddDays(-95), TimeSpan.FromSeconds(5));
        Read(progress, 3, Now.AddDays(-90), TimeSpan.FromSeconds(5));
        Read(progress, 4, Now.AddDays(-85), TimeSpan.FromSeconds(9));
        Assert.Equal(
            "Reading the journal, which is at 2026-03-13T00:00:00Z, entry 3; 2 minutes more at most.",
            Assert.Single(_said.ToString().Split(Environment.NewLine, StringSplitOptions.RemoveEmptyEntries)));
    }

    [Theory]
    [InlineData(0)]
    [InlineData(1)]
    public void Journal_OfOneInstant_OrAheadOfTheClock_SaysNothingOfTheRest(int daysAhead)
    {
        var progress = new ReadingProgress(_time, _said);
        Read(progress, 1, Now.AddDays(daysAhead), TimeSpan.Zero);
        Read(progress, 2, Now.AddDays(2 * daysAhead), TimeSpan.FromSeconds(10));
        Assert.EndsWith($"entry 2.{Environment.NewLine}", _said.ToString(), StringComparison.Ordinal);
    }

    private void Read(ReadingProgress progress, long sequence, DateTimeOffset at, TimeSpan taken)
    {
        _time.Advance(taken);
        progress.Look(new Step(sequence, at, new Entry.ClockReached(), [], Register.Blank));
    }
}
