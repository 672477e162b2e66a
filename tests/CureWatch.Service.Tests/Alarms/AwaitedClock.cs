using System.Collections.Concurrent;
using CureWatch.Service.Tests.Mqtt;
using Microsoft.Extensions.Time.Testing;

namespace CureWatch.Service.Tests.Alarms;

/// <summary>
/// A clock that is set on from one instant that somebody waits for to the next, and each time waits until he waits again: set on after he has asked it and
/// before he waits, it would be waited for too long. No clock of a machine jumps so.
/// </summary>
internal sealed class AwaitedClock(DateTimeOffset start) : FakeTimeProvider(start)
{
    private static readonly TimeSpan Undisturbed = TimeSpan.FromMilliseconds(100);

    private readonly ConcurrentDictionary<ITimer, DateTimeOffset> _awaited = [];
    private long _notedAt;

    /// <summary>Whether somebody waits, and has not thought of another instant for a while.</summary>
    public bool IsAwaited => TimeProvider.System.GetElapsedTime(Volatile.Read(ref _notedAt)) > Undisturbed && Next < DateTimeOffset.MaxValue;

    private DateTimeOffset Next => _awaited.Values.Append(DateTimeOffset.MaxValue).Min();

    public async Task AdvanceToAsync(DateTimeOffset instant)
    {
        while (Next is var next && next <= instant)
        {
            Advance(next - GetUtcNow());
            await Eventually.TrueAsync(() => IsAwaited, "somebody who waits again");
        }

        Advance(instant - GetUtcNow());
    }

    public override ITimer CreateTimer(TimerCallback callback, object? state, TimeSpan dueTime, TimeSpan period)
    {
        HeardTimer? heard = null;
        heard = new HeardTimer(this, base.CreateTimer(Ring, state, Timeout.InfiniteTimeSpan, Timeout.InfiniteTimeSpan));
        heard.Change(dueTime, period);
        return heard;

        void Ring(object? state)
        {
            Note(heard!, period);
            callback(state);
        }
    }

    private void Note(ITimer timer, TimeSpan due)
    {
        _awaited[timer] = due < TimeSpan.Zero ? DateTimeOffset.MaxValue : GetUtcNow() + due;
        Volatile.Write(ref _notedAt, TimeProvider.System.GetTimestamp());
    }

    private sealed class HeardTimer(AwaitedClock clock, ITimer timer) : ITimer
    {
        public bool Change(TimeSpan dueTime, TimeSpan period)
        {
            clock.Note(this, dueTime);
            return timer.Change(dueTime, period);
        }

        public void Dispose()
        {
            clock._awaited.TryRemove(this, out _);
            timer.Dispose();
        }

        public ValueTask DisposeAsync()
        {
            Dispose();
            return ValueTask.CompletedTask;
        }
    }
}
