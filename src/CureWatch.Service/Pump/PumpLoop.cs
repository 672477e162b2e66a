using System.Diagnostics;
using CureWatch.Bays;
using CureWatch.Service.Journal;
using CureWatch.Warnings;

namespace CureWatch.Service.Pump;

/// <summary>
/// The one thread that writes: takes what is queued, decides, journals it with one fsync, and only then acknowledges, publishes and lets
/// the followers act.
/// </summary>
internal sealed class PumpLoop : IDisposable
{
    /// <summary>Most arrivals behind one fsync. Source (choice): a few milliseconds of work.</summary>
    private const int MostInBatch = 2_000;

    /// <summary>How often the journal notes that time passes while nothing else comes.</summary>
    private static readonly TimeSpan IdleMark = TimeSpan.FromMinutes(1);

    private readonly Inbox _inbox;
    private readonly Latest _latest;
    private readonly JournalWriter _journal;
    private readonly TimeProvider _clock;
    private readonly IFollower[] _followers;
    private readonly Troubles _troubles;
    private readonly ClockWatch _clockWatch;
    private readonly ILogger<PumpLoop> _log;
    private readonly Draft _draft;
    private readonly RefusalCounter _refusals;
    private readonly List<(Arrival Arrival, Answer Answer)> _answers = [];
    private readonly Thread _thread;

    /// <summary>Why nothing is taken any more; null while all is well.</summary>
    private string? _trouble;

    public PumpLoop(
        Inbox inbox,
        Latest latest,
        Register register,
        JournalWriter journal,
        TimeProvider clock,
        IEnumerable<IFollower> followers,
        Troubles troubles,
        ILogger<PumpLoop> log)
    {
        (_inbox, _latest, _journal, _clock, _followers, _troubles, _log) = (inbox, latest, journal, clock, [.. followers], troubles, log);
        _clockWatch = new ClockWatch(troubles, clock);
        _refusals = new RefusalCounter(clock);
        _draft = new Draft(register, journal);
        _thread = new Thread(Run) { Name = "pump" };
    }

    /// <summary>Journals what the start brings, and begins to take arrivals.</summary>
    /// <exception cref="IOException">The journal cannot be written.</exception>
    public void Start(IEnumerable<Entry> first)
    {
        _clockWatch.Look(_clock.GetUtcNow(), _draft.Register.At);
        foreach (Entry entry in first)
        {
            _draft.Append(entry, _clock.GetUtcNow());
        }

        Publish(_draft.Flush());
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

    public void Dispose() => _journal.Dispose();

    private void Run()
    {
        var batch = new List<Arrival>(MostInBatch);
        while (_inbox.Take(batch, MostInBatch))
        {
            foreach (Arrival arrival in batch)
            {
                Take(arrival);
            }

            batch.Clear();
            Commit(isLast: false);
        }

        Commit(isLast: true);
    }

    private void Take(Arrival arrival)
    {
        if (_trouble is not null)
        {
            arrival.Complete(new Answer.NotStored(_trouble));
            return;
        }

        DateTimeOffset now = _clock.GetUtcNow();
        _clockWatch.Look(now, _draft.Register.At);
        try
        {
            _answers.Add((arrival, Decide(arrival, now > _draft.Register.At ? now : _draft.Register.At)));
        }
        catch (Exception e) when (e is IOException or UnauthorizedAccessException)
        {
            Log.KeyNotMade(_log, e, arrival.GetType().Name);
            _answers.Add((arrival, new Answer.NotStored($"its key cannot be written: {e.Message}")));
        }
#pragma warning disable CA1031 // whatever one arrival breaks, the bay is watched on
        catch (Exception e)
#pragma warning restore CA1031
        {
            Log.ArrivalSkipped(_log, e, arrival.GetType().Name);
            _answers.Add((arrival, Answer.Refused.ByAnError)); // not "send it again": it would break the same for ever
        }
    }

    private Answer Decide(Arrival arrival, DateTimeOffset now)
    {
        switch (arrival)
        {
            case Arrival.Reading a:
                _draft.Append(a.Entry, now);
                return Answer.Stored.Plain;
            case Arrival.Refusal a:
                _refusals.Count(a.Reason, a.Place);
                return Answer.Stored.Plain;
            case Arrival.Wake:
                if (now - _draft.Register.At >= IdleMark || ShopFold.NextDueAt(_draft.Register.Shop!) <= now)
                {
                    _draft.Append(new Entry.ClockReached(), now);
                }

                return Answer.Stored.Plain;
            case Arrival.Tap a:
                return _refusals.Count(a, Enact(Requests.OnTap(_draft.Register, a, now), now));
            case Arrival.JobStart a:
                return Enact(Requests.OnJobStart(_draft.Register, a, now), now);
            case Arrival.HandOver a:
                return Enact(Requests.OnHandOver(_draft.Register, a, now), now);
            default:
                throw new UnreachableException(arrival.GetType().Name);
        }
    }

    private Answer Enact(Decision decision, DateTimeOffset now)
    {
        foreach (Entry entry in decision.Entries)
        {
            _draft.Append(entry, now);
        }

        return decision.Answer;
    }

    private void Commit(bool isLast)
    {
        if (_trouble is null && Stored(isLast) is { } commit)
        {
            Publish(commit);
        }

        foreach ((Arrival arrival, Answer answer) in _answers)
        {
            arrival.Complete(_trouble is null ? answer : new Answer.NotStored(_trouble));
        }

        _answers.Clear();
    }

    /// <returns>What is on disk now; null where it may not be.</returns>
    private Commit? Stored(bool isLast)
    {
        try
        {
            Mark(isLast);
            return _draft.Flush();
        }
#pragma warning disable CA1031 // a full disk is no IOException everywhere: past a limit on a file's size .NET speaks of an argument
        catch (Exception e)
#pragma warning restore CA1031
        {
            _trouble = $"the journal cannot be written: {e.Message}";
            _troubles.Raise(WarningKind.StorageTrouble, e.Message);
            Log.JournalFailed(_log, e);
            return null;
        }
    }

    private void Mark(bool isLast)
    {
        DateTimeOffset now = _clock.GetUtcNow();
        if (_refusals.Take(isLast) is { } counted)
        {
            _draft.Append(counted, now);
        }

        if (isLast)
        {
            _draft.Append(new Entry.ClockReached(), now);
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
