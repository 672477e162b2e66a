namespace CureWatch.Service.Pump;

/// <summary>What waits for the pump, each probe's readings in a lane of their own, and who has the next turn. Guarded by the <see cref="Inbox"/>.</summary>
/// <param name="newAllowance">How fast a probe's lane may be emptied.</param>
internal sealed class Lanes(Func<Allowance> newAllowance)
{
    /// <summary>Most of what people ask for before every lane has had a turn. Source (choice).</summary>
    private const int MostAsked = 64;

    private readonly Lane _asked = new(null);
    private readonly Lane _refusals = new(null);
    private readonly Dictionary<(string Bay, string Probe), Lane> _probes = [];

    /// <summary>The lanes that have their turn, in order.</summary>
    private readonly Queue<Lane> _turns = new();

    /// <summary>The lanes that were emptied faster than they may be, by when they go on.</summary>
    private readonly PriorityQueue<Lane, long> _resting = new();

    /// <summary>The lanes that hold somebody back.</summary>
    private readonly Queue<Lane> _full = new();

    private int _count;
    private long _bytes;
    private long _last;
    private long _received;
    private bool _isEnding;

    public int Count => Volatile.Read(ref _count);

    public long Bytes => Volatile.Read(ref _bytes);

    public long Received => Volatile.Read(ref _received);

    /// <summary>When the first lane that rests goes on; null where none does.</summary>
    public long? GoesOnAt => _resting.TryPeek(out _, out long goesOn) ? goesOn : null;

    public Lane Of(Arrival arrival)
    {
        switch (arrival)
        {
            case Arrival.Reading { Entry: var entry }:
                if (!_probes.TryGetValue((entry.Bay, entry.Probe), out Lane? lane))
                {
                    lane = new Lane(newAllowance());
                    _probes.Add((entry.Bay, entry.Probe), lane);
                }

                return lane;
            case Arrival.Refusal:
                return _refusals;
            default:
                return _asked;
        }
    }

    /// <returns>Whether there was room for it.</returns>
    public bool TryAdd(Lane lane, Arrival arrival)
    {
        bool hasRoom = !lane.HoldsBack && HasRoom(lane, arrival);
        if (hasRoom)
        {
            Add(lane, arrival);
        }

        return hasRoom;
    }

    /// <summary>Holds an arrival back, behind those of its lane.</summary>
    public LinkedListNode<Lane.Held> Hold(Lane lane, Arrival arrival)
    {
        if (!lane.IsInQueue)
        {
            lane.IsInQueue = true;
            _full.Enqueue(lane);
        }

        return lane.Hold(arrival);
    }

    /// <summary>Whether something can be taken.</summary>
    /// <param name="now">The present.</param>
    public bool IsReady(long now)
    {
        while (GoesOnAt is { } goesOn && (goesOn <= now || _isEnding))
        {
            _turns.Enqueue(_resting.Dequeue());
        }

        return _asked.Count > 0 || _turns.Count > 0;
    }

    /// <summary>Takes in rounds: what people ask for, then one arrival of each lane; then lets in whom there is room for.</summary>
    public void Fill(List<Arrival> batch, int most, long now)
    {
        while (batch.Count < most && (_asked.Count > 0 || _turns.Count > 0))
        {
            for (int i = 0; i < MostAsked && _asked.Count > 0 && batch.Count < most; i++)
            {
                Move(_asked, batch);
            }

            for (int lanes = _turns.Count; lanes > 0 && batch.Count < most; lanes--)
            {
                Serve(_turns.Dequeue(), batch, now);
            }
        }

        Admit();
    }

    /// <summary>Lets everybody go who is held back, unheard. What is left has no time to rest.</summary>
    public IEnumerable<Lane.Held> End()
    {
        _isEnding = true;
        foreach (Lane lane in _full)
        {
            for (; lane.HoldsBack; lane.LetGo())
            {
                yield return lane.First;
            }
        }
    }

    private bool Rests(Lane lane, long now, out long goesOn)
    {
        goesOn = _isEnding ? now : lane.Allowance?.Take(now) ?? now;
        return goesOn > now;
    }

    private bool HasRoom(Lane lane, Arrival arrival) =>
        lane.Count == 0 || (lane.Count < Inbox.MostInLane && _count < Inbox.Most && _bytes + arrival.Bytes <= Inbox.MostBytes);

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
    }

    private void Serve(Lane lane, List<Arrival> batch, long now)
    {
        if (Rests(lane, now, out long goesOn))
        {
            _resting.Enqueue(lane, goesOn);
            return;
        }

        Move(lane, batch);
        if (lane.Count > 0)
        {
            _turns.Enqueue(lane);
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
        for (int inVain = 0; inVain < _full.Count;)
        {
            Lane lane = _full.Dequeue();
            bool isAdmitted = lane.HoldsBack && HasRoom(lane, lane.First.Arrival);
            if (isAdmitted)
            {
                Lane.Held held = lane.First;
                lane.LetGo();
                Add(lane, held.Arrival);
                held.Admit();
            }

            lane.IsInQueue = lane.HoldsBack;
            if (lane.IsInQueue)
            {
                _full.Enqueue(lane);
                inVain = isAdmitted ? 0 : inVain + 1;
            }
        }
    }
}
