using System.Collections.Immutable;
using CureWatch.Warnings;

namespace CureWatch.Service.Pump;

/// <summary>
/// What keeps the program itself from its work, for everyone who tells people. It is no part of the shop's state: that follows from the journal
/// alone, and where the journal cannot be written no entry can tell of it.
/// </summary>
internal sealed class Troubles(TimeProvider clock)
{
    private ImmutableList<Trouble> _standing = [];

    /// <summary>Happens on the thread of whoever met or left a trouble: take it and return.</summary>
    public event Action? Changed;

    /// <summary>Those that stand; the same list for as long as none comes or goes.</summary>
    public ImmutableList<Trouble> Standing => Volatile.Read(ref _standing);

    public Trouble? Of(WarningKind kind) => Standing.Find(t => t.Kind == kind);

    /// <param name="kind">The kind; one that stands already goes on since then.</param>
    /// <param name="why">What was seen of it.</param>
    public void Raise(WarningKind kind, string why)
    {
        DateTimeOffset now = clock.GetUtcNow();
        Update(all => all.Find(t => t.Kind == kind) switch
        {
            null => all.Add(new Trouble(kind, why, now)),
            var stands when stands.Why != why => all.Replace(stands, stands with { Why = why }),
            _ => all,
        });
    }

    public void Clear(WarningKind kind) => Update(all => all.RemoveAll(t => t.Kind == kind));

    private void Update(Func<ImmutableList<Trouble>, ImmutableList<Trouble>> change)
    {
        if (ImmutableInterlocked.Update(ref _standing, change))
        {
            Changed?.Invoke();
        }
    }
}
