using CureWatch.Service.Disk;
using CureWatch.Service.Pump;

namespace CureWatch.Service.Book;

/// <summary>The one thread that owns the book.</summary>
/// <remarks>
/// The pump never waits for the book. When more is waiting than memory should hold, the book forgets what waits and reads it from the
/// journal instead: it may lag, and loses nothing. A book that breaks is replaced, once a day at most; the bay is watched on without it in any case.
/// </remarks>
internal sealed class BookKeeper : IFollower, IHostedLifecycleService, IDisposable
{
    private static readonly TimeSpan RetryAfter = TimeSpan.FromMinutes(1);

    /// <summary>What breaks again so soon breaks by something that another book does not mend. Source (choice).</summary>
    private static readonly TimeSpan ReplacedFor = TimeSpan.FromDays(1);

    private readonly IDisk _disk;
    private readonly string _folder;
    private readonly IJournalSteps _journal;
    private readonly Latest _latest;
    private readonly TimeProvider _clock;
    private readonly ILogger<BookKeeper> _log;
    private readonly CommitQueue _commits;
    private readonly QuestionDesk _desk = new();
    private readonly AutoResetEvent _signal = new(initialState: false);
    private readonly CancellationTokenSource _stopping = new();
    private readonly Thread _thread;
    private BookOpening? _opening;
    private string? _doubt;
    private bool _isDisposed;

    /// <param name="disk">The disk.</param>
    /// <param name="folder">The folder of the book.</param>
    /// <param name="opening">How it was found; not refused.</param>
    /// <param name="journalLast">The number of the journal's last entry when it was opened.</param>
    /// <param name="journal">The journal.</param>
    /// <param name="latest">The newest state that is on disk.</param>
    /// <param name="clock">By which it is tried again.</param>
    /// <param name="log">Where trouble is told.</param>
    public BookKeeper(
        IDisk disk, string folder, BookOpening opening, long journalLast, IJournalSteps journal, Latest latest, TimeProvider clock,
        ILogger<BookKeeper> log)
    {
        (_disk, _folder, _opening, _journal, _latest, _clock, _log) = (disk, folder, opening, journal, latest, clock, log);
        long known = opening is BookOpening.Found found ? found.Position.ReadingsThrough : 0;
        _commits = new CommitQueue { HasMissed = known < journalLast };
        _thread = new Thread(Run) { Name = "book" };
    }

    /// <summary>How far the book is; the start while it was never open.</summary>
    public BookPosition Booked => _commits.Booked;

    public void Follow(Commit commit)
    {
        _commits.Add(commit);
        _signal.Set();
    }

    /// <summary>Asks the book. The question runs on the thread that owns it: what it gives has to be whole by then.</summary>
    public Task<BookAnswer<T>> AskAsync<T>(Func<BookQueries, T> question)
    {
        var waiting = new BookQuestion.Of<T>(question);
        _desk.Put(waiting);
        _signal.Set();
        return waiting.Answered;
    }

    public Task StartingAsync(CancellationToken cancellationToken) => Task.CompletedTask;

    public Task StartAsync(CancellationToken cancellationToken)
    {
        _thread.Start();
        return Task.CompletedTask;
    }

    public Task StartedAsync(CancellationToken cancellationToken) => Task.CompletedTask;

    public Task StoppingAsync(CancellationToken cancellationToken) => Task.CompletedTask;

    public Task StopAsync(CancellationToken cancellationToken) => Task.CompletedTask;

    /// <summary>After everybody else has stopped, so that the pump's last entries are in the book too.</summary>
    public Task StoppedAsync(CancellationToken cancellationToken) => Task.Run(Stop, CancellationToken.None);

    /// <summary>May be called again: the container knows this under three names.</summary>
    public void Dispose()
    {
        if (_isDisposed)
        {
            return;
        }

        _isDisposed = true;
        Stop();
        FileOf(_opening)?.Dispose();
        _signal.Dispose();
        _stopping.Dispose();
    }

    private static BookFile? FileOf(BookOpening? opening) => opening switch
    {
        BookOpening.Found found => found.File,
        BookOpening.Anew anew => anew.File,
        _ => null,
    };

    private void Stop()
    {
        _stopping.Cancel();
        _signal.Set();
        if (_thread.IsAlive)
        {
            _thread.Join();
        }

        _desk.Close("the service is stopping");
    }

    private void Run()
    {
        DateTimeOffset? replacedAt = null;
        do // at least once: what was committed before a stop is in the book after it, however late this thread begins
        {
            try
            {
                Keep();
                return;
            }
            catch (Exception e) when (e is IOException or UnauthorizedAccessException)
            {
                Log.TriedAgain(_log, e);
                StayAway($"the book cannot be used: {e.Message}", RetryAfter);
            }
#pragma warning disable CA1031 // a broken file makes the store throw whatever it stumbles over
            catch (Exception e) when (replacedAt is not { } before || (_clock.GetUtcNow() - before).Duration() > ReplacedFor)
            {
                Log.Broke(_log, e);
                (replacedAt, _doubt) = (_clock.GetUtcNow(), e.Message);
            }
            catch (Exception e)
            {
                Log.LeftAlone(_log, e);
                StayAway($"the book is broken: {e.Message}", Timeout.InfiniteTimeSpan);
            }
#pragma warning restore CA1031

            _commits.HasMissed = true;
        }
        while (!_stopping.IsCancellationRequested);
    }

    private void Keep()
    {
        using var book = new OpenBook(Open());
        using var loop = new BookLoop(book, _commits, _desk, _journal, _latest, _log);
        _desk.Open();
        loop.Run(_signal, _stopping.Token);
    }

    private BookFile Open()
    {
        BookOpening opening = _doubt is not null ? BookOpening.Aside(_disk, _folder, _doubt)
            : _opening ?? BookOpening.Of(_disk, _folder, _latest.Register.Sequence);
        (_opening, _doubt) = (null, null);   // a book that broke is opened again
        switch (opening)
        {
            case BookOpening.Refused refused:
                throw new IOException(refused.Fault.ToString());
            case BookOpening.Anew { Doubt: { } why, MovedTo: var place }:
                Log.MovedAside(_log, why, place);
                break;
            case BookOpening.Anew when _commits.HasMissed:
                Log.WrittenAnew(_log);
                break;
        }

        return FileOf(opening)!;
    }

    private void StayAway(string why, TimeSpan howLong)
    {
        _desk.Close(why);
        Task.Delay(howLong, _clock, _stopping.Token).ContinueWith(_ => { }, TaskScheduler.Default).GetAwaiter().GetResult();
    }
}
