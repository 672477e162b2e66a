using System.Collections.Immutable;
using CureWatch.Planning;
using CureWatch.Warnings;

namespace CureWatch.Bays;

/// <summary>What is expected of a bay with an open coat in it, as it was last looked ahead.</summary>
/// <param name="At">When that was.</param>
/// <param name="Until">Until when was looked: to the next opening at least.</param>
/// <param name="IsForecast">Whether the bay's own days tell; else what bays usually do.</param>
/// <param name="Night">What it likely comes down to in that time, as long as something in it has to stay dry by the slow bound.</param>
/// <param name="Risks">What may happen, each kind once, in the order of the kinds: heat at any time, all else only as long as that.</param>
public sealed record BayAhead(DateTimeOffset At, DateTimeOffset Until, bool IsForecast, NightAhead Night, ImmutableArray<Risk> Risks)
{
    /// <summary>Finds the risk of a kind.</summary>
    /// <param name="kind">The kind of the warning ahead.</param>
    /// <returns>The risk; null where that is next to impossible.</returns>
    public Risk? Of(WarningKind kind) => Risks.FirstOrDefault(r => r.Kind == kind);
}

/// <summary>Something that may happen.</summary>
/// <param name="Kind">The warning it is told by.</param>
/// <param name="Chance">How likely it is by the end of what was looked at, or until it matters no more [1].</param>
/// <param name="SoonChance">How likely it is in the next eight hours, and no later than people come [1].</param>
/// <param name="From">When it likely begins.</param>
/// <param name="Lasts">How long it then likely lasts.</param>
/// <param name="Remedies">What still helps, the best first.</param>
public sealed record Risk(
    WarningKind Kind, double Chance, double SoonChance, DateTimeOffset From, TimeSpan Lasts, ImmutableArray<RemedyEffect> Remedies);
