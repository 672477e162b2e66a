using System.Collections.Immutable;
using CureWatch.Bays;
using CureWatch.Panels;
using CureWatch.Readings;

namespace CureWatch.Reports;

/// <summary>When nobody measured the air of a bay, for longer than a pause between two readings.</summary>
internal static class AirSilence
{
    /// <summary>Finds the stretches.</summary>
    /// <param name="bay">The bay.</param>
    /// <param name="from">Since when.</param>
    /// <param name="to">Until when.</param>
    /// <returns>Those that reach into it, in order; the last is without an end where nobody is heard yet, or the bay has no probe.</returns>
    public static ImmutableArray<Spell> In(BayState bay, DateTimeOffset from, DateTimeOffset to)
    {
        ProbeLog[] air =
        [
            .. bay.Logs.Where((_, i) => bay.Plan.Probes[i] is { Probe.Measures: Measures.Air } mount && PlaceAir.Of(mount.Place) == Place.Outside),
        ];
        if (air.Length == 0)
        {
            return [new Spell(from, null)];
        }

        TimeSpan every = air.Min(l => l.Probe.Every);
        var silences = ImmutableArray.CreateBuilder<Spell>();
        DateTimeOffset heard = from;
        foreach (DateTimeOffset at in air.SelectMany(l => Since(l.Air, from)).Append(to).Order())
        {
            if (at > heard && Source.IsGapForCure(at - heard, every))
            {
                silences.Add(new Spell(heard, at < to ? at : null));
            }

            heard = at > heard ? at : heard;
        }

        return silences.ToImmutable();
    }

    private static IEnumerable<DateTimeOffset> Since(Trail<Sample> trail, DateTimeOffset from)
    {
        for (int i = trail.CountUpTo(from); i < trail.Count; i++)
        {
            yield return trail[i].At;
        }
    }
}
