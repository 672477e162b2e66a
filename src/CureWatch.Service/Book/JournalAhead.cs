using CureWatch.Service.Pump;

namespace CureWatch.Service.Book;

/// <summary>The part of the journal that a book has missed, a slice at a time.</summary>
/// <param name="journal">The journal.</param>
/// <param name="position">How far the book is.</param>
/// <param name="through">The last entry of which it is known that it is on disk.</param>
internal sealed class JournalAhead(IJournalSteps journal, BookPosition position, long through) : IDisposable
{
    private readonly IEnumerator<Step> _steps = journal.After(Before(position)).GetEnumerator();
    private long _last = Before(position);

    /// <summary>Where it begins: at the last entry of the book, by which it is seen whether the two belong together, or before.</summary>
    public long First => Before(position) + 1;

    /// <returns>The next entries; none at the end.</returns>
    /// <exception cref="InvalidDataException">This is not the journal the book was written from.</exception>
    /// <exception cref="IOException">The journal cannot be read, which is no fault of the book's.</exception>
    public IReadOnlyList<Step> Next(int most)
    {
        var steps = new List<Step>();
        while (steps.Count < most && MoveNext() && _steps.Current.Sequence <= through)
        {
            Step step = _steps.Current;
            if (step.Sequence == position.Sequence && step.At.ToUnixTimeMilliseconds() != position.At.ToUnixTimeMilliseconds())
            {
                throw new InvalidDataException($"entry {step.Sequence} of the journal is of another instant than in the book");
            }

            _last = step.Sequence;
            steps.Add(step);
        }

        return steps;
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

    private static long Before(BookPosition position) => Math.Max(0, Math.Min(position.ReadingsThrough, position.Sequence - 1));
}
