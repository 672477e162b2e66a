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

    /// <summary>Most of what people ask for before every lane has had a turn. Source (choice).</summary>
    private const int MostAsked = 64;

    /// <summary>How long somebody who asks is kept waiting for room. Source (choice): before a browser or a person gives up.</summary>
    private static readonly TimeSpan Patience = TimeSpan.FromSeconds(2);

    private readonly object _gate = new(); // a monitor, because the pump's thread waits on it
    private readonly TimeProvider _time = time ?? TimeProvider.System;
    private readonly Lane _asked = new(null);
    private readonly Lane _refusals = new(null);
    private readonly Dictionary<(string Bay, string Probe), Lane> _probes = [];

    /// <summary>The lanes that have their turn, in order.</summary>
    private readonly Queue<Lane> _turns = new();

    /// <summary>The lanes that were emptied faster than they may be, by when they go on.</summary>
    private readonly PriorityQueue<Lane, long> _resting = new();

    /// <summary>The lanes that hold somebody back.</summary>
    private readonly Queue<Lane> _full = new();

    private ITimer? _alarm;
    private int _count;
    private long _bytes;
    private long _last;
    private long _received;
    private bool _isClosed;

    /// <summary>How many arrivals wait.</summary>
    public int Count => Volatile.Read(ref _count);

    /// <summary>What they take up [bytes].</summary>
    public long Bytes => Volatile.Read(ref _bytes);

    /// <summary>How many readings and messages that were none have come in.</summary>
    public long Received => Volatile.Read(ref _received);

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

            lane = LaneOf(arrival);
            if (!lane.HoldsBack && HasRoom(lane, arrival))
            {
                Add(lane, arrival);
                return ValueTask.CompletedTask;
            }

            held = lane.Hold(arrival);
            if (!lane.IsInQueue)
            {
                lane.IsInQueue = true;
                _full.Enqueue(lane);
            }
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
                if (IsAnythingReady())
                {
                    Fill(batch, most);
                    batch.Sort(static (a, b) => a.Number.CompareTo(b.Number));
                    Admit();
                }
                else if (_isClosed)
                {
                    return false;
                }
                else
                {
                    Monitor.Wait(_gate);
                }
            }

            return true;
        }
    }

    /// <summary>Takes nothing more.</summary>
    public void Close()
    {
        lock (_gate)
        {
            _isClosed = true;
            _alarm?.Dispose();
            foreach (Lane lane in _full)
            {
                for (; lane.HoldsBack; lane.LetGo())
                {
                    Decline(lane.First.Arrival);
                    lane.First.Admit();
                }
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

    private Lane LaneOf(Arrival arrival)
    {
        switch (arrival)
        {
            case Arrival.Reading { Entry: var entry }:
                if (!_probes.TryGetValue((entry.Bay, entry.Probe), out Lane? lane))
                {
                    lane = new Lane(new Allowance(Math.Max(1, _time.TimestampFrequency / readingsPerSecond), Burst));
                    _probes.Add((entry.Bay, entry.Probe), lane);
                }

                return lane;
            case Arrival.Refusal:
                return _refusals;
            default:
                return _asked;
        }
    }

    private bool HasRoom(Lane lane, Arrival arrival) =>
        lane.Count == 0 || (lane.Count < MostInLane && _count < Most && _bytes + arrival.Bytes <= MostBytes);

    private void Add(Lane lane, Arrival arrival)
    {
        if (lane.Count == 0 && lane != _asked)
        {
            _turns.Enqueue(lane);
        }

        lane.Enqueue(arrival);
        arrival.Number = ++_last;
        _count++;
        _bytes += arrival.Bytes;
        _received += arrival is Arrival.Reading or Arrival.Refusal ? 1 : 0;
        Monitor.Pulse(_gate);
    }

    private bool IsAnythingReady()
    {
        long now = _time.GetTimestamp();
        long next = now;
        while (_resting.TryPeek(out _, out next) && (_isClosed || next <= now))
        {
            _turns.Enqueue(_resting.Dequeue());
        }

        if (_asked.Count > 0 || _turns.Count > 0)
        {
            return true;
        }

        if (_resting.Count > 0)
        {
            _alarm ??= _time.CreateTimer(_ => Wake(), null, Timeout.InfiniteTimeSpan, Timeout.InfiniteTimeSpan);
            _alarm.Change(_time.GetElapsedTime(now, next) + TimeSpan.FromMilliseconds(1), Timeout.InfiniteTimeSpan);
        }

        return false;
    }

    private void Wake()
    {
        lock (_gate)
        {
            Monitor.Pulse(_gate);
        }
    }

    /// <summary>Takes in rounds: what people ask for, then one arrival of each lane.</summary>
    private void Fill(List<Arrival> batch, int most)
    {
        long now = _time.GetTimestamp();
        while (batch.Count < most && (_asked.Count > 0 || _turns.Count > 0))
        {
            for (int i = 0; i < MostAsked && _asked.Count > 0 && batch.Count < most; i++)
            {
                Move(_asked, batch);
            }

            for (int lanes = _turns.Count; lanes > 0 && batch.Count < most; lanes--)
            {
                Lane lane = _turns.Dequeue();
                if (!_isClosed && lane.Allowance?.Take(now) is { } goesOn && goesOn > now)
                {
                    _resting.Enqueue(lane, goesOn);
                    continue;
                }

                Move(lane, batch);
                if (lane.Count > 0)
                {
                    _turns.Enqueue(lane);
                }
            }
        }
    }

    private void Move(Lane lane, List<Arrival> batch)
    {
        Arrival arrival = lane.Dequeue();
        _count--;
        _bytes -= arrival.Bytes;
        batch.Add(arrival);
    }

    /// <summary>Lets in whom there is room for now, one of each lane in turn.</summary>
    private void Admit()
    {
        for (int without = 0; without < _full.Count;)
        {
            Lane lane = _full.Dequeue();
            if (lane.HoldsBack && HasRoom(lane, lane.First.Arrival))
            {
                Lane.Held held = lane.First;
                lane.LetGo();
                Add(lane, held.Arrival);
                held.Admit();
                without = 0;
            }
            else
            {
                without++;
            }

            lane.IsInQueue = lane.HoldsBack;
            if (lane.IsInQueue)
            {
                _full.Enqueue(lane);
            }
            else
            {
                without = 0;
            }
        }
    }
}
