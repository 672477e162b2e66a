using System.Collections.Immutable;
using CureWatch.Service.Journal;

namespace CureWatch.Service.Pump;

/// <summary>What a request comes to: what to journal, and what to answer once that is on disk.</summary>
internal readonly record struct Decision(Answer Answer, ImmutableArray<Entry> Entries)
{
    public static Decision Nothing(Answer answer) => new(answer, []);
}
