namespace CureWatch.Service.Demo;

/// <summary>
/// A clock that stands still until it is stepped, and on the way to its new time rings every timer at the instant it is due, in order.
/// </summary>
internal sealed class SteppedClock(DateTimeOffset start) : TimeProvider
{
    private readonly Lock _gate = new();
    private readonly PriorityQueue<SteppedTimer, (DateTimeOffset Due, long Number)> _timers = new();
    private DateTimeOffset _now = start.ToUniversalTime();
    private long _numbers;

    public override TimeZoneInfo LocalTimeZone => TimeZoneInfo.Utc;

    public override long TimestampFrequency => TimeSpan.TicksPerSecond;

    public override DateTimeOffset GetUtcNow()
    {
        lock (_gate)
        {
            return _now;
        }
    }

    public override long GetTimestamp() => GetUtcNow().UtcTicks;

    public override ITimer CreateTimer(TimerCallback callback, object? state, TimeSpan dueTime, TimeSpan period)
    {
        var timer = new SteppedTimer(this, callback, state);
        timer.Change(dueTime, period);
        return timer;
    }

    /// <summary>Moves the clock on.</summary>
    /// <param name="to">The new time; one that is past already changes nothing.</param>
    public void StepTo(DateTimeOffset to)
    {
        while (NextRing(to) is { } timer)
        {
            timer.Ring();
        }
    }

    private SteppedTimer? NextRing(DateTimeOffset to)
    {
        lock (_gate)
        {
            while (_timers.TryDequeue(out SteppedTimer? timer, out (DateTimeOffset Due, long Number) set))
            {
                if (timer.Number != set.Number)
                {
                    continue; // was set anew, or stopped, since
                }

                if (set.Due > to)
                {
                    _timers.Enqueue(timer, set);
                    break;
                }

                _now = set.Due > _now ? set.Due : _now;
                Enlist(timer, timer.Period);
                return timer;
            }

            _now = to > _now ? to : _now;
            return null;
        }
    }

    private void Set(SteppedTimer timer, TimeSpan dueTime, TimeSpan period)
    {
        lock (_gate)
        {
            timer.Period = period > TimeSpan.Zero ? period : Timeout.InfiniteTimeSpan;
            Enlist(timer, dueTime);
        }
    }

    private void Enlist(SteppedTimer timer, TimeSpan dueTime)
    {
        timer.Number = ++_numbers;
        if (dueTime >= TimeSpan.Zero)
        {
            _timers.Enqueue(timer, (_now + dueTime, timer.Number));
        }
    }

    private sealed class SteppedTimer(SteppedClock clock, TimerCallback callback, object? state) : ITimer
    {
        /// <summary>Which setting of any timer this one runs on; older ones in the queue are void.</summary>
        public long Number { get; set; }

        public TimeSpan Period { get; set; } = Timeout.InfiniteTimeSpan;

        public void Ring() => callback(state);

        public bool Change(TimeSpan dueTime, TimeSpan period)
        {
            clock.Set(this, dueTime, period);
            return true;
        }

        public void Dispose() => clock.Set(this, Timeout.InfiniteTimeSpan, Timeout.InfiniteTimeSpan);

        public ValueTask DisposeAsync()
        {
            Dispose();
            return ValueTask.CompletedTask;
        }
    }
}
