using System.Collections.Immutable;
using CureWatch.Bays;
using CureWatch.Service.Journal;

namespace CureWatch.Service.Pump;

/// <summary>The state as it will be once everything appended so far is on disk, and the way there.</summary>
internal sealed class Draft(Register register, JournalWriter journal)
{
    private readonly List<Step> _steps = [];

    /// <summary>The state that is on disk.</summary>
    private Register _stored = register;

    public Register Register { get; private set; } = register;

    /// <summary>
    /// Takes entries in together, and appends them with the facts they bring about. Nothing is taken in or appended where that throws.
    /// </summary>
    public void Append(ReadOnlySpan<Entry> entries, DateTimeOffset at)
    {
        (Register before, int steps, JournalMark mark) = (Register, _steps.Count, journal.Mark);
        try
        {
            foreach (Entry entry in entries)
            {
                Append(entry, at);
            }
        }
        catch
        {
            Register = before;
            _steps.RemoveRange(steps, _steps.Count - steps);
            journal.BackTo(mark);
            throw;
        }
    }

    /// <summary>Brings everything onto the disk.</summary>
    /// <returns>What that brought about.</returns>
    /// <exception cref="IOException">It may not be on disk, and has to be forgotten.</exception>
    public Commit Flush()
    {
        long begun = TimeProvider.System.GetTimestamp();
        journal.Flush();
        return Stored(TimeProvider.System.GetElapsedTime(begun));
    }

    /// <summary>Leaves the mark of an orderly stop.</summary>
    /// <exception cref="IOException">It may not be on disk; everything before is.</exception>
    public Commit Close()
    {
        journal.Close();
        _ = Take(new Entry.JournalClosed(), journal.LastAt);
        return Stored(TimeSpan.Zero);
    }

    /// <summary>Takes back everything that is not on disk.</summary>
    public void Forget()
    {
        Register = _stored;
        _steps.Clear();
        journal.Forget();
    }

    private Commit Stored(TimeSpan took)
    {
        ImmutableArray<Step> steps = [.. _steps];
        _steps.Clear();
        _stored = Register;
        return new Commit(steps, Register, took);
    }

    private void Append(Entry entry, DateTimeOffset at)
    {
        Register before = Register;
        at = at > journal.LastAt ? at : journal.LastAt;
        journal.Append(entry, at);
        ImmutableArray<ShopEvent> happened = Take(entry, at);
        if (Facts.AreIn(happened)) // few readings bring any about
        {
            foreach (Entry fact in Facts.Of(before, happened))
            {
                journal.Append(fact, at);
                _ = Take(fact, at);
            }
        }
    }

    /// <summary>Takes in what was appended last.</summary>
    private ImmutableArray<ShopEvent> Take(Entry entry, DateTimeOffset at)
    {
        (Register, ImmutableArray<ShopEvent> happened) = RegisterFold.Take(Register, journal.Last, at, entry);
        _steps.Add(new Step(journal.Last, at, entry, happened, Register));
        return happened;
    }
}
