using System.Collections.Immutable;
using CureWatch.Service.Pump;
using CureWatch.Warnings;

namespace CureWatch.Service.Api;

/// <summary>The warnings that are over, as far as the engine itself remembers them.</summary>
internal sealed class RecentWarnings(Latest latest) : IPastWarnings
{
    public IReadOnlyList<(int Number, Warning Warning)> Newest(int most)
    {
        ImmutableList<Warning> all = latest.Register.Shop?.Warnings ?? [];
        return [.. all.Select((w, i) => (i, w)).Reverse().Where(w => w.w.ClearedAt is not null).Take(most)];
    }
}
