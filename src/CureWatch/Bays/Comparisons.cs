using System.Collections.Immutable;
using CureWatch.Panels;
using CureWatch.Readings;

namespace CureWatch.Bays;

/// <summary>When probes that are missing, or stand still, were last compared with those that are heard: it is what is known of them since.</summary>
/// <remarks>A probe may be dead for months, and the bay goes by how it differed from the others then (<see cref="TwinReach"/>, <see cref="PanelMix"/>).</remarks>
internal static class Comparisons
{
    /// <summary>The stretches of which what all probes said is still asked for.</summary>
    /// <param name="logs">The bay's probes.</param>
    /// <param name="from">The instant from which everything is kept.</param>
    /// <returns>Those that begin before it; none where all probes are heard.</returns>
    public static ImmutableArray<(DateTimeOffset From, DateTimeOffset To)> AskedFor(ImmutableArray<ProbeLog> logs, DateTimeOffset from) =>
    [
        .. logs.SelectMany(l => LastHeard(l.Air, from).Concat(LastHeard(l.Panel, from)).Concat(l.Standing.Stills.Select(s => s.From.At)))
            .Where(at => at - TwinReach.LongestAgo < from).Distinct().Order().Select(at => (at - TwinReach.LongestAgo, at)),
    ];

    /// <summary>When a probe was heard before it fell silent, as far as it was silent at an instant or soon after.</summary>
    private static IEnumerable<DateTimeOffset> LastHeard(Trail<Sample> trail, DateTimeOffset from)
    {
        for (int i = Math.Max(0, trail.CountUpTo(from) - 1); i < trail.Count && trail[i].At - TwinReach.LongestAgo < from; i++)
        {
            if (i + 1 == trail.Count || trail[i + 1].At - trail[i].At > Source.CureLimit)
            {
                yield return trail[i].At;
            }
        }
    }
}
