using CureWatch.Service.Settings;

namespace CureWatch.Service.Pump;

/// <summary>
/// Where everything that comes from outside waits for the pump, each probe's readings in a lane of their own. A full lane holds its senders
/// back, and so does a full inbox: nothing is thrown away, and what waits takes up only so much.
/// </summary>
/// <remarks>
/// A batch is made up of what people ask for and then of one arrival of each lane in turn, so that a probe that runs wild delays nobody but
/// itself; what is in the batch is in the order it came. An empty lane has room even in a full inbox.
/// </remarks>
/// <param name="readingsPerSecond">How many readings of one probe are taken a second in the long run; more wait.</param>
/// <param name="time">The time of the machine.</param>
internal sealed class Inbox(int readingsPerSecond = LimitSettings.UsualReadingsPerSecond, TimeProvider? time = null)
{
    /// <summary>Most arrivals that wait. Source (choice): ten batches of the pump's.</summary>
    public const int Most = 20_000;

    /// <summary>Most that they take up [bytes], beside one of each lane. Source (choice).</summary>
    public const long MostBytes = 32L << 20;

    /// <summary>Most of one lane: what an external broker may send ahead of our acknowledgements, so that none of it stands in the way.</summary>
    public const int MostInLane = 2_000;

    /// <summary>A quarter of an hour of a probe that reports each second, which is as late as a reading may come. Source (choice).</summary>
    private const int Burst = 900;

    /// <summary>How long somebody who asks is kept waiting for room. Source (choice): before a browser or a person gives up.</summary>
    private static readonly TimeSpan Patience = TimeSpan.FromSeconds(2);

    private static readonly TimeSpan OneTick = TimeSpan.FromMilliseconds(1);

    private readonly object _gate = new(); // a monitor, because the pump's thread waits on it
    private readonly TimeProvider _time = time ?? TimeProvider.System;
    private readonly Lanes _lanes = new(() => new Allowance(Math.Max(1, (time ?? TimeProvider.System).TimestampFrequency / readingsPerSecond), Burst));
    private ITimer? _alarm;
    private bool _isClosed;

    /// <summary>How many arrivals wait.</summary>
    public int Count => _lanes.Count;

    /// <summary>What they take up [bytes].</summary>
    public long Bytes => _lanes.Bytes;

    /// <summary>How many readings and messages that were none have come in.</summary>
    public long Received => _lanes.Received;

    /// <summary>Puts an arrival in, once there is room; its <see cref="Arrival.Answered"/> completes in any case.</summary>
    public ValueTask PostAsync(Arrival arrival, CancellationToken cancelled = default)
    {
        if (cancelled.IsCancellationRequested)
        {
            return ValueTask.FromCanceled(cancelled);
        }

        Lane lane;
        LinkedListNode<Lane.Held> held;
        lock (_gate)
        {
            if (_isClosed)
            {
                Decline(arrival);
                return ValueTask.CompletedTask;
            }

            lane = _lanes.Of(arrival);
            if (_lanes.TryAdd(lane, arrival))
            {
                Monitor.Pulse(_gate);
                return ValueTask.CompletedTask;
            }

            held = _lanes.Hold(lane, arrival);
        }

        return new ValueTask(AwaitAsync(lane, held, cancelled));
    }

    /// <summary>Puts an arrival in and waits for its answer; where there is no room for long, that it is not stored.</summary>
    public async Task<Answer> AskAsync(Arrival arrival, CancellationToken cancelled = default)
    {
        using var patience = new CancellationTokenSource(Patience, _time);
        using var both = CancellationTokenSource.CreateLinkedTokenSource(cancelled, patience.Token);
        try
        {
            await PostAsync(arrival, both.Token).ConfigureAwait(false);
        }
        catch (OperationCanceledException) when (!cancelled.IsCancellationRequested)
        {
            return new Answer.NotStored("more is waiting than can be stored at present");
        }

        return await arrival.Answered.WaitAsync(cancelled).ConfigureAwait(false);
    }

    /// <summary>Waits until there is something to take, and takes it. For the pump's thread alone.</summary>
    /// <param name="batch">Where it is put.</param>
    /// <param name="most">How much at most.</param>
    /// <returns>False once the inbox is closed and nothing is left.</returns>
    public bool Take(List<Arrival> batch, int most)
    {
        lock (_gate)
        {
            while (batch.Count == 0)
            {
                long now = _time.GetTimestamp();
                if (_lanes.IsReady(now))
                {
                    _lanes.Fill(batch, most, now);
                }
                else if (_isClosed)
                {
                    return false;
                }
                else
                {
                    SetAlarm(now);
                    Monitor.Wait(_gate);
                }
            }
        }

        batch.Sort(static (a, b) => a.Number.CompareTo(b.Number));
        return true;
    }

    /// <summary>Takes nothing more.</summary>
    public void Close()
    {
        lock (_gate)
        {
            _isClosed = true;
            _alarm?.Dispose();
            foreach (Lane.Held held in _lanes.End())
            {
                Decline(held.Arrival);
                held.Admit();
            }

            Monitor.PulseAll(_gate);
        }
    }

    private static void Decline(Arrival arrival) => arrival.Complete(new Answer.NotStored("the service is stopping"));

    private async Task AwaitAsync(Lane lane, LinkedListNode<Lane.Held> held, CancellationToken cancelled)
    {
        using CancellationTokenRegistration registration = cancelled.Register(() =>
        {
            lock (_gate)
            {
                if (!lane.Withdraw(held))
                {
                    return;
                }
            }

            held.Value.Cancel(cancelled);
        });
        await held.Value.Admitted.ConfigureAwait(false);
    }

    private void SetAlarm(long now)
    {
        if (_lanes.GoesOnAt is { } goesOn)
        {
            _alarm ??= _time.CreateTimer(_ => Wake(), null, Timeout.InfiniteTimeSpan, Timeout.InfiniteTimeSpan);
            _alarm.Change(_time.GetElapsedTime(now, goesOn) + OneTick, Timeout.InfiniteTimeSpan);
        }
    }

    private void Wake()
    {
        lock (_gate)
        {
            Monitor.Pulse(_gate);
        }
    }
}
