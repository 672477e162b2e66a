using CureWatch.Service.Pump;
using CureWatch.Warnings;

namespace CureWatch.Service.Tests.Pump;

public class ClockWatchTests
{
    private readonly SetClock _clock = new();
    private readonly Troubles _troubles;
    private readonly ClockWatch _watch;
    private DateTimeOffset _journalAt = Journal.Entries.At;

    public ClockWatchTests()
    {
        _troubles = new Troubles(_clock);
        _watch = new ClockWatch(_troubles, _clock);
        Look();
    }

    private string? Why => _troubles.Of(WarningKind.ClockTrouble)?.Why;

    [Fact]
    public void Time_ThatOnlyPasses_IsNoTrouble()
    {
        _clock.Pass(TimeSpan.FromDays(3));
        Look();
        Assert.Null(Why);
    }

    [Fact]
    public void Clock_SetAhead_IsToldForAnHour()
    {
        _clock.Pass(TimeSpan.FromMinutes(1));
        _clock.Set(TimeSpan.FromHours(5));
        Look();
        Assert.StartsWith("it was set ahead by 0.05:00:00 at 2026-05-04T13:01:00Z", Why, StringComparison.Ordinal);
        _clock.Pass(TimeSpan.FromMinutes(59));
        Look();
        Assert.NotNull(Why);
        _clock.Pass(TimeSpan.FromMinutes(2));
        Look();
        Assert.Null(Why);
    }

    [Theory]
    [InlineData(119)]
    [InlineData(-119)]
    public void Clock_SetByLessThanIsPutUpWith_IsNoTrouble(int seconds)
    {
        _clock.Set(TimeSpan.FromSeconds(seconds));
        Look();
        Assert.Null(Why);
    }

    [Fact]
    public void Clock_SetBackAndRightAgain_IsNoJumpAhead()
    {
        _clock.Set(TimeSpan.FromHours(-3));
        Look();
        Assert.StartsWith("it shows 2026-05-04T05:00:00Z, and the last entry is of 2026-05-04T08:00:00Z", Why, StringComparison.Ordinal);
        _clock.Set(TimeSpan.FromHours(3));
        Look();
        Assert.Null(Why);
    }

    [Fact]
    public void Clock_SetAheadAndRightAgain_IsBehindTheJournal()
    {
        _clock.Set(TimeSpan.FromHours(5));
        Look();
        _clock.Set(TimeSpan.FromHours(-5));
        Look();
        Assert.StartsWith("it shows 2026-05-04T08:00:00Z", Why, StringComparison.Ordinal);
    }

    /// <summary>The pump looks before it writes.</summary>
    private void Look()
    {
        _watch.Look(_clock.GetUtcNow(), _journalAt);
        _journalAt = _clock.GetUtcNow() > _journalAt ? _clock.GetUtcNow() : _journalAt;
    }
}
