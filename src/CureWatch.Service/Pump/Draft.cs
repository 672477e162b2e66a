using System.Collections.Immutable;
using CureWatch.Bays;
using CureWatch.Service.Journal;

namespace CureWatch.Service.Pump;

/// <summary>The state as it will be once everything appended so far is on disk, and the way there.</summary>
internal sealed class Draft(Register register, JournalWriter journal)
{
    private readonly List<Step> _steps = [];

    public Register Register { get; private set; } = register;

    /// <summary>Takes an entry in, and appends it with the facts it brings about. Nothing is appended where taking it in throws.</summary>
    public void Append(Entry entry, DateTimeOffset at)
    {
        Register before = Register;
        at = at > journal.LastAt ? at : journal.LastAt;
        (Register after, ImmutableArray<ShopEvent> happened) = RegisterFold.Take(before, journal.Last + 1, at, entry);
        Entry[] facts = Facts.AreIn(happened) ? [.. Facts.Of(before, happened)] : []; // few readings bring any about
        Write(entry, at, happened, after);
        foreach (Entry fact in facts)
        {
            after = RegisterFold.Take(after, journal.Last + 1, at, fact).After;
            Write(fact, at, [], after);
        }

        Register = after;
    }

    /// <summary>Brings everything onto the disk.</summary>
    /// <returns>What that brought about.</returns>
    /// <exception cref="IOException">It may not be on disk.</exception>
    public Commit Flush()
    {
        long begun = TimeProvider.System.GetTimestamp();
        journal.Flush();
        TimeSpan took = TimeProvider.System.GetElapsedTime(begun);
        ImmutableArray<Step> steps = [.. _steps];
        _steps.Clear();
        return new Commit(steps, Register, took);
    }

    private void Write(Entry entry, DateTimeOffset at, ImmutableArray<ShopEvent> happened, Register after)
    {
        journal.Append(entry, at);
        _steps.Add(new Step(journal.Last, at, entry, happened, after));
    }
}
