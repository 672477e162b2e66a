using System.Collections.Immutable;
using CureWatch.Panels;
using CureWatch.Readings;

namespace CureWatch.Bays;

/// <summary>Another probe that moved while one repeated its value, though what both measure is the same, or follows it.</summary>
/// <remarks>
/// It speaks where it got further away than both probes' steps can hide, to one side and for a while: a door, a lagging sensor and a draught pass. What is
/// rounded hides half a step either way, and what is told by a dead band a whole one; the smallest step a probe was seen to make is the one or the other.
/// A twin measures the same. Air and panels follow one another: a panel that comes nearer to air that stands still only warms up or cools
/// down in it, and says nothing; no panel gets away from it. Air takes a panel along, if slowly.
/// </remarks>
internal static class StillWitness
{
    /// <summary>
    /// What proves a value stuck: a twin that got further away than two places in one air differ from minute to minute, a panel or its air further than one
    /// moves without the other; by more than both probes' steps hide, and a half for noise. Source (choice).
    /// </summary>
    private static readonly Measure Proof = new(0.5, 4, 1, 1.5, 2);

    /// <summary>What makes it suspect, and nobody is told: less than that, and no less than both probes' steps hide. Source (choice), by the false alarms in sound bays.</summary>
    private static readonly Measure Hint = new(0.3, 2.5, 0.6, 1, 2);

    /// <summary>How far from its air a panel is that cannot keep its temperature [K], at least so many of its steps, for an hour. Source (choice).</summary>
    private const double FarK = 5, StepsToBeFar = 5;
    private static readonly TimeSpan FarLasts = TimeSpan.FromHours(1);

    /// <summary>For how long it must have been away. Source (choice): as long as a door's air, and as a panel lags behind.</summary>
    private static readonly TimeSpan Away = TimeSpan.FromMinutes(20);

    /// <summary>Looks for one that proves it.</summary>
    /// <param name="shop">The shop.</param>
    /// <param name="bay">The bay.</param>
    /// <param name="index">The place in the plan of the probe that repeats its value.</param>
    /// <param name="what">What it repeats.</param>
    /// <param name="standing">The run.</param>
    /// <returns>The witness, a twin before all others; null where there is none.</returns>
    public static (StillReason Why, string Probe)? Of(Shop shop, BayState bay, int index, Quantity what, Standing standing) =>
        Of(shop, bay, index, what, standing, Proof);

    /// <summary>Looks for one that moved too little to prove anything, and further than is likely beside a sound probe that stands still.</summary>
    /// <returns>The probe that moved; null where there is none.</returns>
    public static string? Hinting(Shop shop, BayState bay, int index, Quantity what, Standing standing) => Of(shop, bay, index, what, standing, Hint)?.Probe;

    private static (StillReason Why, string Probe)? Of(Shop shop, BayState bay, int index, Quantity what, Standing standing, Measure measure)
    {
        ImmutableArray<int> twins = ProbeTwins.Of(bay.Plan, index);
        ProbeMount own = bay.Plan.Probes[index];
        (StillReason, string)? follower = null;
        for (int i = 0; i < bay.Logs.Length; i++)
        {
            ProbeMount mount = bay.Plan.Probes[i];
            bool isTwin = twins.Contains(i);
            if (i == index || mount.Probe.Measures == Measures.Outdoor || PlaceAir.Of(mount.Place) != PlaceAir.Of(own.Place)
                || (!isTwin && (what == Quantity.Humidity || mount.Probe.Measures == own.Probe.Measures))
                || bay.Logs[i] is not { OutvotedAt: null } log || log.Standing.Open(what) is { Why: not StillReason.Suspected } || ProbeTwins.IsLent(bay, i, shop.Now))
            {
                continue;
            }

            if (isTwin && IsAway(log, what, standing, measure, what == Quantity.Humidity ? measure.TwinPct : own.Probe.Measures == Measures.Air ? measure.TwinK : measure.OtherK, heldKelvins: null))
            {
                return (StillReason.TwinMoved, mount.Probe.Id);
            }

            double? held = mount.Probe.Measures == Measures.Panel ? bay.Logs[index].Newest!.Value.Kelvins : null;
            if (!isTwin && standing.IsLongerThan(measure.Runs) && IsAway(log, what, standing, measure, measure.OtherK, held))
            {
                follower = (StillReason.NeighbourMoved, mount.Probe.Id);
            }
            else if (!isTwin && mount.Probe.Measures == Measures.Air && standing.IsLongerThan(measure.Runs) && IsFarFromAir(log, standing, bay.Logs[index].Newest!.Value.Kelvins))
            {
                follower ??= (StillReason.FarFromAir, mount.Probe.Id);
            }
        }

        return follower;
    }

    /// <summary>Whether what a probe says got away from what it said when the run began, and was for a while.</summary>
    private static bool IsAway(ProbeLog log, Quantity what, Standing standing, Measure measure, double leastMoved, double? heldKelvins)
    {
        Trail<Sample> samples = log.Probe.Measures == Measures.Panel ? log.Panel : log.Air;
        TimeSpan away = Away > 2 * log.Probe.Every ? Away : 2 * log.Probe.Every;
        int then = samples.CountUpTo(standing.Since), now = samples.CountUpTo(standing.HeardAt), before = samples.CountUpTo(standing.HeardAt - away);
        if (then == 0 || before <= then || samples[then - 1] is not { HeldWithinK: 0 } first)
        {
            return false;
        }

        double threshold = Math.Max(leastMoved, measure.Steps * (Known(standing.Step) + Known(log.Standing.Of(what)?.Step ?? 0)));
        double side = Moved(first, samples[now - 1]), step = Known(log.Standing.Of(Quantity.Temperature)?.Step ?? 0);
        if (heldKelvins is { } still && Math.Abs(samples[now - 1].Kelvins - still) < Math.Abs(samples[before - 1].Kelvins - still) - step)
        {
            return false; // a car that was just driven in
        }

        for (int i = now - 1; i >= before - 1; i--)
        {
            bool isNearer = heldKelvins is { } held && Math.Abs(samples[i].Kelvins - held) < Math.Abs(first.Kelvins - held) + threshold;
            if (samples[i].HeldWithinK > 0 || isNearer || Moved(first, samples[i]) * Math.Sign(side) < threshold)
            {
                return false;
            }
        }

        return true;

        double Moved(Sample a, Sample b) => what == Quantity.Humidity ? b.HumidityPct - a.HumidityPct : b.Kelvins - a.Kelvins;
    }

    /// <summary>Whether a panel was so far from the air for an hour that it must have moved: even the body of a car gets there in three.</summary>
    private static bool IsFarFromAir(ProbeLog air, Standing standing, double heldKelvins)
    {
        int now = air.Air.CountUpTo(standing.HeardAt), before = air.Air.CountUpTo(standing.HeardAt - FarLasts);
        if (standing.Run < FarLasts || before == 0)
        {
            return false;
        }

        double side = Math.Sign(heldKelvins - air.Air[now - 1].Kelvins), far = Math.Max(FarK, StepsToBeFar * Known(standing.Step));
        for (int i = now - 1; i >= before - 1; i--)
        {
            if (air.Air[i].HeldWithinK > 0 || (heldKelvins - air.Air[i].Kelvins) * side < far)
            {
                return false;
            }
        }

        return true;
    }

    private static double Known(double step) => double.IsFinite(step) ? step : 0;

    /// <summary>How far something else must have moved.</summary>
    /// <param name="TwinK">A twin of an air's temperature [K].</param>
    /// <param name="TwinPct">A twin of its humidity [% RH].</param>
    /// <param name="OtherK">A panel and its air, and two panels [K].</param>
    /// <param name="Steps">How many steps of both probes it must be [1].</param>
    /// <param name="Runs">How many times its usual run the value must have lasted, to be told by what is no twin [1].</param>
    private sealed record Measure(double TwinK, double TwinPct, double OtherK, double Steps, double Runs);
}
