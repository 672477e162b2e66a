using System.Collections.Immutable;

namespace CureWatch.Bays;

/// <summary>Who has to be looked at when, the soonest first and of several at one instant by id.</summary>
/// <remarks>A group of shops asks with every reading which job is due: that must not cost a look at every job.</remarks>
public sealed class Agenda
{
    private static readonly Comparer<(DateTimeOffset At, string Id)> Order = Comparer<(DateTimeOffset At, string Id)>.Create(
        (a, b) => a.At.CompareTo(b.At) is not 0 and var order ? order : string.CompareOrdinal(a.Id, b.Id));

    private readonly ImmutableSortedSet<(DateTimeOffset At, string Id)> _entries;

    private Agenda(ImmutableSortedSet<(DateTimeOffset At, string Id)> entries) => _entries = entries;

    /// <summary>Nothing is due.</summary>
    public static Agenda Empty { get; } = new(ImmutableSortedSet.Create<(DateTimeOffset, string)>(Order));

    /// <summary>Who is due next, and when; null where nobody is.</summary>
    public (DateTimeOffset At, string Id)? First => _entries.IsEmpty ? null : _entries.Min;

    /// <summary>When the next is due; null where none is.</summary>
    public DateTimeOffset? NextAt => First?.At;

    /// <summary>Who is due, in order.</summary>
    /// <param name="now">The present.</param>
    /// <returns>The ids.</returns>
    public IEnumerable<string> DueBy(DateTimeOffset now) => _entries.IsEmpty || _entries.Min.At > now
        ? []
        : Due(now);

    /// <summary>Moves somebody to another instant.</summary>
    /// <param name="id">Who.</param>
    /// <param name="from">The instant they stood at; null where they stood nowhere.</param>
    /// <param name="to">The instant they stand at from now on; null where they stand nowhere.</param>
    /// <returns>The agenda.</returns>
    public Agenda Move(string id, DateTimeOffset? from, DateTimeOffset? to)
    {
        if (from == to)
        {
            return this;
        }

        ImmutableSortedSet<(DateTimeOffset, string)> entries = from is { } was ? _entries.Remove((was, id)) : _entries;
        return new Agenda(to is { } at ? entries.Add((at, id)) : entries);
    }

    private IEnumerable<string> Due(DateTimeOffset now) => _entries.TakeWhile(e => e.At <= now).Select(e => e.Id);
}
