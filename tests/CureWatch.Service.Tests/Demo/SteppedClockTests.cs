using CureWatch.Service.Demo;

namespace CureWatch.Service.Tests.Demo;

public class SteppedClockTests
{
    private static readonly DateTimeOffset Start = DemoDay.Start;

    private readonly SteppedClock _clock = new(Start);
    private readonly List<(string Name, DateTimeOffset At)> _rung = [];

    [Fact]
    public void Time_StandsStill_UntilStepped_AndNeverGoesBack()
    {
        long before = _clock.GetTimestamp();
        _clock.StepTo(Start.AddMinutes(3));
        _clock.StepTo(Start.AddMinutes(1));

        Assert.Equal(Start.AddMinutes(3), _clock.GetUtcNow());
        Assert.Equal(TimeSpan.FromMinutes(3), _clock.GetElapsedTime(before));
    }

    [Fact]
    public void Timers_RingInOrder_EachAtItsOwnInstant()
    {
        using ITimer late = Ring("late", 120), early = Ring("early", 30), never = Ring("never", 600);
        _clock.StepTo(Start.AddMinutes(5));

        Assert.Equal([("early", Start.AddSeconds(30)), ("late", Start.AddSeconds(120))], _rung);
    }

    [Fact]
    public void Timers_DueAtOnce_RingAsTheyWereSet()
    {
        using ITimer first = Ring("first", 60), second = Ring("second", 60);
        _clock.StepTo(Start.AddMinutes(1));

        Assert.Equal(["first", "second"], _rung.Select(r => r.Name));
    }

    [Fact]
    public void Timer_WithAPeriod_RingsOnEachOfThem()
    {
        using ITimer timer = _clock.CreateTimer(_ => Note("tick"), null, TimeSpan.FromSeconds(10), TimeSpan.FromSeconds(20));
        _clock.StepTo(Start.AddMinutes(1));

        Assert.Equal([10, 30, 50], _rung.Select(r => (r.At - Start).TotalSeconds));
    }

    [Fact]
    public void Timer_SetAnew_RingsOnlyThen()
    {
        using ITimer timer = Ring("once", 10);
        timer.Change(TimeSpan.FromSeconds(40), Timeout.InfiniteTimeSpan);
        _clock.StepTo(Start.AddMinutes(1));

        Assert.Equal([("once", Start.AddSeconds(40))], _rung);
    }

    [Fact]
    public void Timer_Disposed_IsSilent()
    {
        Ring("gone", 10).Dispose();
        _clock.StepTo(Start.AddMinutes(1));

        Assert.Empty(_rung);
    }

    [Fact]
    public void Timer_SetByAnotherThatRings_RingsInTheSameStep()
    {
        ITimer? second = null;
        using ITimer first = _clock.CreateTimer(_ => second = Ring("second", 5), null, TimeSpan.FromSeconds(10), Timeout.InfiniteTimeSpan);
        _clock.StepTo(Start.AddMinutes(1));
        second?.Dispose();

        Assert.Equal([("second", Start.AddSeconds(15))], _rung);
    }

    [Fact]
    public async Task Delay_OnTheClock_EndsWithTheStep()
    {
        Task delay = Task.Delay(TimeSpan.FromHours(1), _clock, TestContext.Current.CancellationToken);
        _clock.StepTo(Start.AddMinutes(59));
        Assert.False(delay.IsCompleted);
        _clock.StepTo(Start.AddMinutes(60));

        await delay;
    }

    private ITimer Ring(string name, int seconds) =>
        _clock.CreateTimer(_ => Note(name), null, TimeSpan.FromSeconds(seconds), Timeout.InfiniteTimeSpan);

    private void Note(string name) => _rung.Add((name, _clock.GetUtcNow()));
}
