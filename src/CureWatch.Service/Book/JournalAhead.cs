using CureWatch.Service.Pump;

namespace CureWatch.Service.Book;

/// <summary>The part of the journal that a book has missed, a slice at a time.</summary>
/// <param name="journal">The journal.</param>
/// <param name="position">How far the book is.</param>
/// <param name="through">The last entry of which it is known that it is on disk.</param>
internal sealed class JournalAhead(IJournalSteps journal, BookPosition position, long through) : IDisposable
{
    private readonly IEnumerator<Step> _steps = journal.After(position.Level).GetEnumerator();
    private long _last = position.Level;

    /// <summary>Where it begins: at the last entry of the book, by which it is seen whether the two belong together, or before.</summary>
    public long First => position.Level + 1;

    /// <summary>Whether there are no more.</summary>
    public bool IsAtItsEnd { get; private set; }

    /// <remarks>One at a time: each holds the state of its moment, and two thousand at once cost the collector three times the work of the book.</remarks>
    /// <returns>The next entries.</returns>
    /// <exception cref="InvalidDataException">This is not the journal the book was written from.</exception>
    /// <exception cref="IOException">The journal cannot be read, which is no fault of the book's.</exception>
    public IEnumerable<Step> Next(int most)
    {
        for (int i = 0; i < most; i++)
        {
            if (!MoveNext() || _steps.Current.Sequence > through)
            {
                IsAtItsEnd = true;
                yield break;
            }

            Step step = _steps.Current;
            if (step.Sequence == position.Sequence && step.At.ToUnixTimeMilliseconds() != position.At.ToUnixTimeMilliseconds())
            {
                throw new InvalidDataException($"entry {step.Sequence} of the journal is of another instant than in the book");
            }

            _last = step.Sequence;
            yield return step;
        }
    }

    public void Dispose() => _steps.Dispose();

    private bool MoveNext()
    {
        try
        {
            if (_steps.MoveNext())
            {
                return true;
            }
        }
#pragma warning disable CA1031 // whatever is wrong with the journal, the book is not moved aside for it
        catch (Exception e) when (e is not IOException)
#pragma warning restore CA1031
        {
            throw new IOException($"the journal cannot be read: {e.Message}", e);
        }

        return _last >= through ? false : throw new IOException($"the journal cannot be read beyond entry {_last} of {through}");
    }
}
