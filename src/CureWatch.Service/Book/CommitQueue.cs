using System.Collections.Concurrent;
using CureWatch.Service.Pump;

namespace CureWatch.Service.Book;

/// <summary>Commits that wait for the book. A full queue does not hold the pump up: what no longer fits is in the journal anyway.</summary>
internal sealed class CommitQueue
{
    /// <summary>Most entries that wait. Source (choice): about 20 MB; a shop of ten bays takes half an hour to fill it.</summary>
    public const int MostWaiting = 20_000;

    private readonly ConcurrentQueue<Commit> _commits = new();
    private int _waiting;
    private volatile bool _hasMissed;
    private volatile BookPosition _booked = BookPosition.Start;

    /// <summary>Whether something was committed that is not here, so that the journal has to be read.</summary>
    public bool HasMissed
    {
        get => _hasMissed;
        set => _hasMissed = value;
    }

    /// <summary>How far the book is, for whoever measures its lag or keeps what it would read on from; the start while it was never open.</summary>
    public BookPosition Booked
    {
        get => _booked;
        set => _booked = value;
    }

    public void Add(Commit commit)
    {
        if (Interlocked.Add(ref _waiting, commit.Steps.Length) > MostWaiting)
        {
            Interlocked.Add(ref _waiting, -commit.Steps.Length);
            _hasMissed = true;
        }
        else
        {
            _commits.Enqueue(commit);
        }
    }

    /// <returns>The steps of the commits that wait, or of the first of them where they are many.</returns>
    public IReadOnlyList<Step> Take(int enough)
    {
        var steps = new List<Step>();
        while (steps.Count < enough && _commits.TryDequeue(out Commit? commit))
        {
            Interlocked.Add(ref _waiting, -commit.Steps.Length);
            steps.AddRange(commit.Steps);
        }

        return steps;
    }

    /// <summary>Leaves everything that waits to the journal.</summary>
    public void Forget() => _ = Take(int.MaxValue);
}
