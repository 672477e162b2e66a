namespace CureWatch.Service.Mqtt;

/// <summary>
/// What has changed and is not published yet. Something that was quiet for a quarter of a second is due at once; what was published a moment
/// ago waits until that is over, however often it changes meanwhile.
/// </summary>
internal sealed class Marks(TimeProvider time) : IDisposable
{
    private static readonly TimeSpan Quiet = TimeSpan.FromMilliseconds(250);

    /// <summary>Of what only may have changed, so much at a time that nobody waits for it long. Source (choice).</summary>
    private const int MostLater = 50;

    private readonly Lock _lock = new();
    private readonly SemaphoreSlim _signal = new(0);
    private readonly HashSet<string> _urgent = new(StringComparer.Ordinal);
    private readonly HashSet<string> _ready = new(StringComparer.Ordinal);
    private readonly Queue<string> _later = new();

    /// <summary>What was published a moment ago, and whether it has changed since.</summary>
    private readonly Dictionary<string, bool> _resting = new(StringComparer.Ordinal);
    private readonly Queue<(string Key, long Until)> _rests = new();
    private int _waiting;
    private bool _isAll = true;
    private bool _isForgotten;
    private bool _isTaken;
    private long _restsUntil;

    /// <summary>Whether all is published.</summary>
    public bool IsEmpty
    {
        get
        {
            lock (_lock)
            {
                return !_isTaken && IsNothingLeft;
            }
        }
    }

    private bool IsUrgent => _isAll || _urgent.Count > 0;

    private bool IsNothingLeft => !IsUrgent && _ready.Count == 0 && _waiting == 0 && _later.Count == 0;

    /// <summary>Something has changed.</summary>
    public void Add(IEnumerable<string> keys)
    {
        lock (_lock)
        {
            foreach (string key in keys)
            {
                if (!_resting.TryGetValue(key, out bool hasChanged))
                {
                    _ = _ready.Add(key);
                }
                else if (!hasChanged)
                {
                    _resting[key] = true;
                    _waiting++;
                }
            }
        }

        _signal.Release();
    }

    /// <summary>Something has changed that nobody should wait for.</summary>
    public void AddUrgent(string key)
    {
        lock (_lock)
        {
            _ = _urgent.Add(key);
        }

        _signal.Release();
    }

    /// <summary>Something may have changed, because time passed.</summary>
    public void AddLater(IEnumerable<string> keys)
    {
        lock (_lock)
        {
            if (_later.Count == 0)
            {
                foreach (string key in keys)
                {
                    _later.Enqueue(key);
                }
            }
        }

        _signal.Release();
    }

    /// <summary>Everything is to be looked at, and what is there no more to be taken away.</summary>
    /// <param name="isForgotten">Whether nobody knows any more what is published.</param>
    public void AddAll(bool isForgotten = false)
    {
        lock (_lock)
        {
            _isAll = true;
            _isForgotten |= isForgotten;
        }

        _signal.Release();
    }

    /// <summary>Waits until something is due, and takes it.</summary>
    public async Task<Marked> TakeAsync(CancellationToken cancelled)
    {
        while (true)
        {
            cancelled.ThrowIfCancellationRequested();
            TimeSpan left;
            lock (_lock)
            {
                long now = time.GetTimestamp();
                left = Left(now);
                if (left == TimeSpan.Zero)
                {
                    return Take(now);
                }
            }

            if (await _signal.WaitAsync(left, cancelled).ConfigureAwait(false))
            {
                while (_signal.Wait(0, cancelled))
                {
                    // One look does for all that was signalled meanwhile.
                }
            }
        }
    }

    /// <summary>What was taken is published.</summary>
    /// <param name="rest">How long only what is urgent is due.</param>
    public void Done(TimeSpan rest)
    {
        lock (_lock)
        {
            _isTaken = false;
            _restsUntil = time.GetTimestamp() + Ticks(rest);
        }
    }

    public void Dispose() => _signal.Dispose();

    private TimeSpan Left(long now)
    {
        if (IsUrgent)
        {
            return TimeSpan.Zero;
        }

        if (IsNothingLeft)
        {
            return Timeout.InfiniteTimeSpan;
        }

        long until = _ready.Count > 0 || _later.Count > 0 ? _restsUntil : Math.Max(_restsUntil, _rests.Peek().Until);
        return until <= now ? TimeSpan.Zero : TimeSpan.FromSeconds((until - now) / (double)time.TimestampFrequency) + TimeSpan.FromMilliseconds(1);
    }

    private Marked Take(long now)
    {
        while (_rests.TryPeek(out (string Key, long Until) rest) && rest.Until <= now)
        {
            _rests.Dequeue();
            if (_resting.Remove(rest.Key, out bool hasChanged) && hasChanged)
            {
                _waiting--;
                _ready.Add(rest.Key);
            }
        }

        var keys = new HashSet<string>(_urgent, StringComparer.Ordinal);
        if (_restsUntil <= now)
        {
            keys.UnionWith(_ready);
            _ready.Clear();
            for (int i = 0; i < MostLater && _later.TryDequeue(out string? key); i++)
            {
                keys.Add(key);
            }
        }

        _urgent.Clear();
        foreach (string key in keys)
        {
            if (_resting.TryAdd(key, false))
            {
                _rests.Enqueue((key, now + Ticks(Quiet)));
            }
        }

        var marked = new Marked(_isAll, _isForgotten, keys);
        (_isAll, _isForgotten, _isTaken) = (false, false, true);
        return marked;
    }

    private long Ticks(TimeSpan span) => (long)(span.TotalSeconds * time.TimestampFrequency);
}

/// <summary>What is to be published.</summary>
/// <param name="IsAll">Everything, whatever else is named.</param>
/// <param name="IsForgotten">Nobody knows any more what is published.</param>
/// <param name="Keys">What has changed, or may have.</param>
internal readonly record struct Marked(bool IsAll, bool IsForgotten, IReadOnlyCollection<string> Keys);
