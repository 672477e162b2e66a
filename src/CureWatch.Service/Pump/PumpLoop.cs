using CureWatch.Service.Journal;
using CureWatch.Warnings;

namespace CureWatch.Service.Pump;

/// <summary>
/// The one thread that writes: takes what is queued, has it judged, journals it with one fsync, and only then acknowledges, publishes and lets
/// the followers act.
/// </summary>
internal sealed class PumpLoop : IDisposable
{
    /// <summary>Most arrivals behind one fsync, where it is quick. Source (choice): a few milliseconds of work.</summary>
    private const int UsualBatch = 2_000;

    /// <summary>A write that takes longer is slow: behind the next goes all that waits. Source (choice): longer than the work of a batch.</summary>
    private static readonly TimeSpan SlowWrite = TimeSpan.FromMilliseconds(50);

    private readonly Inbox _inbox;
    private readonly Latest _latest;
    private readonly JournalWriter _journal;
    private readonly TimeProvider _clock;
    private readonly IFollower[] _followers;
    private readonly Troubles _troubles;
    private readonly ClockWatch _clockWatch;
    private readonly StorageWatch _storage;
    private readonly ILogger<PumpLoop> _log;
    private readonly Draft _draft;
    private readonly RefusalCounter _refusals;
    private readonly ArrivalJudge _judge;
    private readonly List<(Arrival Arrival, Answer Answer)> _answers = [];
    private readonly Thread _thread;

    /// <summary>While nothing can be stored and nothing is taken; null while all is well.</summary>
    private Outage? _outage;

    /// <summary>While what comes is taken again, but not for long enough to say that all is well; null before and after.</summary>
    private Convalescence? _recovery;

    public PumpLoop(
        Inbox inbox,
        Latest latest,
        Register register,
        JournalWriter journal,
        StorageWatch storage,
        TimeProvider clock,
        IEnumerable<IFollower> followers,
        Troubles troubles,
        ILogger<PumpLoop> log)
    {
        (_inbox, _latest, _journal, _storage, _clock, _followers, _troubles, _log) = (inbox, latest, journal, storage, clock, [.. followers], troubles, log);
        _clockWatch = new ClockWatch(troubles, clock);
        _refusals = new RefusalCounter(clock, () => _ = WakeAsync());
        _draft = new Draft(register, journal);
        _judge = new ArrivalJudge(_draft, _refusals, storage, log);
        _thread = new Thread(Run) { Name = "pump" };
    }

    /// <summary>Journals what the start brings, and begins to take arrivals.</summary>
    /// <exception cref="IOException">The journal cannot be written.</exception>
    public void Start(IEnumerable<Entry> first)
    {
        _clockWatch.Look(_clock.GetUtcNow(), _draft.Register.At);
        _draft.Append([.. first], _clock.GetUtcNow());
        Publish(_draft.Flush());
        _storage.Look();
        _thread.Start();
    }

    /// <summary>Takes what is queued, notes the time, and ends.</summary>
    public void Stop()
    {
        _inbox.Close();
        if (_thread.IsAlive)
        {
            _thread.Join();
        }
    }

    public void Dispose()
    {
        _refusals.Dispose();
        _journal.Dispose();
    }

    private void Run()
    {
        var batch = new List<Arrival>(UsualBatch);
        while (_inbox.Take(batch, _storage.LastWrite > SlowWrite ? Inbox.Most : UsualBatch))
        {
            foreach (Arrival arrival in batch)
            {
                Take(arrival);
            }

            batch.Clear();
            if (_outage is null or { IsDue: true })
            {
                Commit(isLast: false);
            }
        }

        Commit(isLast: true);
        Close();
    }

    private void Take(Arrival arrival)
    {
        if (_outage is not null)
        {
            arrival.Complete(new Answer.NotStored(_outage.Why));
            return;
        }

        DateTimeOffset now = _clock.GetUtcNow();
        _clockWatch.Look(now, _draft.Register.At);
        _answers.Add((arrival, _judge.On(arrival, now)));
    }

    private void Commit(bool isLast)
    {
        if (Stored(isLast) is { } commit)
        {
            Publish(commit);
            Recover();
        }

        foreach ((Arrival arrival, Answer answer) in _answers)
        {
            arrival.Complete(_outage is null ? answer : new Answer.NotStored(_outage.Why));
        }

        _answers.Clear();
        if (_storage.Look())
        {
            _journal.Look();
        }
    }

    /// <returns>What is on disk now; null where it may not be, and is forgotten here.</returns>
    private Commit? Stored(bool isLast)
    {
        try
        {
            Mark(isLast);
            Commit commit = _storage.Watch(_draft.Flush);
            _refusals.Keep();
            return commit;
        }
#pragma warning disable CA1031 // whatever it is, what may not be on disk is not acknowledged
        catch (Exception e)
#pragma warning restore CA1031
        {
            _draft.Forget();
            _refusals.Forget();
            Suffer(e);
            return null;
        }
    }

    /// <summary>Notes what has to be noted, and where the journal could not be written, that it can: no trouble ends without a write.</summary>
    private void Mark(bool isLast)
    {
        DateTimeOffset now = _clock.GetUtcNow();
        if (_refusals.Take(isLast) is { } counted)
        {
            _draft.Append([counted], now);
        }

        if (isLast || _outage is not null || _recovery is { IsOver: true })
        {
            _draft.Append([new Entry.ClockReached()], now);
        }
    }

    private void Suffer(Exception e)
    {
        string why = $"the journal cannot be written: {e.Message}";
        if (_outage is null && _recovery is null)
        {
            Log.JournalFailed(_log, e);
        }

        (_outage, _recovery) = (_outage?.GoesOn(why) ?? new Outage(why, _clock, WakeAsync), null);
        _troubles.Raise(WarningKind.StorageTrouble, e.Message);
    }

    /// <summary>What comes is taken from the first write on that succeeds; that all is well is told once that has lasted.</summary>
    private void Recover()
    {
        if (_outage is not null)
        {
            (_outage, _recovery) = (null, new Convalescence(_clock, WakeAsync));
        }
        else if (_recovery is { IsOver: true })
        {
            _recovery = null;
            _troubles.Clear(WarningKind.StorageTrouble);
            Log.JournalGoesOn(_log);
        }
    }

    private Task WakeAsync() => _inbox.PostAsync(new Arrival.Wake()).AsTask();

    private void Close()
    {
        if (_outage is not null)
        {
            return;
        }

        try
        {
            Publish(_draft.Close());
        }
#pragma warning disable CA1031 // the service stops in any case
        catch (Exception e)
#pragma warning restore CA1031
        {
            Log.JournalNotClosed(_log, e);
        }
    }

    private void Publish(Commit commit)
    {
        if (commit.Steps.IsEmpty)
        {
            return;
        }

        _latest.Register = commit.After;
        foreach (IFollower follower in _followers)
        {
            follower.Follow(commit);
        }
    }
}
