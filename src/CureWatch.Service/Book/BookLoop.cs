using CureWatch.Service.Pump;

namespace CureWatch.Service.Book;

/// <summary>Keeps an open book level with the journal, and answers questions in between.</summary>
internal sealed class BookLoop(
    OpenBook book, CommitQueue commits, QuestionDesk desk, IJournalSteps journal, Latest latest, ILogger log) : IDisposable
{
    /// <summary>Most entries written at once, so that nobody waits long for an answer.</summary>
    private const int Slice = 2_000;

    /// <summary>How often open blocks are stored: a power cut costs little reading, 60 probes 35 MB a day. Source (choice).</summary>
    private static readonly TimeSpan SaveEvery = TimeSpan.FromMinutes(10);

    private JournalAhead? _ahead;
    private long _savedAt = TimeProvider.System.GetTimestamp();

    private bool IsBehind => _ahead is not null || commits.HasMissed;

    /// <summary>Works until it is told to stop and nothing waits any more.</summary>
    public void Run(AutoResetEvent signal, CancellationToken stopping)
    {
        while (true)
        {
            // First what was committed, then the questions: whoever asks finds what they were told is stored.
            int asked = desk.Waiting;
            bool hasWorked = Work(stopping);
            commits.Booked = book.Position;
            desk.Answer(asked, book.Queries, IsBehind);
            SaveNowAndThen();
            if (hasWorked)
            {
                continue;
            }

            if (stopping.IsCancellationRequested)
            {
                break;
            }

            signal.WaitOne(SaveEvery);
        }

        book.Save();
        book.Checkpoint();
    }

    public void Dispose() => _ahead?.Dispose();

    /// <returns>Whether there was anything to do. What it is behind when it stops is read from the journal at the next start.</returns>
    private bool Work(CancellationToken stopping)
    {
        if (IsBehind)
        {
            return !stopping.IsCancellationRequested && CatchUp();
        }

        IReadOnlyList<Step> steps = commits.Take(Slice);
        book.Take(steps);
        return steps.Count > 0;
    }

    private void SaveNowAndThen()
    {
        if (TimeProvider.System.GetElapsedTime(_savedAt) > SaveEvery)
        {
            book.Save();
            _savedAt = TimeProvider.System.GetTimestamp();
        }
    }

    private bool CatchUp()
    {
        _ahead ??= LookAhead();
        book.Take(_ahead.Next(Slice));
        if (_ahead.IsAtItsEnd)
        {
            _ahead.Dispose();
            _ahead = null;
            book.Save();
            book.Checkpoint(); // pages that are in the log alone cannot be held against anything
            Log.IsLevel(log, book.Position.Sequence);
        }

        return true;
    }

    private JournalAhead LookAhead()
    {
        commits.HasMissed = false;   // first: what is missed from here on is missed again
        commits.Forget();
        var ahead = new JournalAhead(journal, book.Position, through: latest.Register.Sequence);
        Log.CatchesUp(log, ahead.First);
        return ahead;
    }
}
