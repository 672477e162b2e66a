using System.Collections.Immutable;
using CureWatch.Panels;
using CureWatch.Readings;

namespace CureWatch.Bays;

/// <summary>The probes of a bay that measure one thing: one air, or panels of one material in it, of one surface where it is named.</summary>
public static class ProbeTwins
{
    /// <summary>Of the looks within this time the first is compared. Source (choice): what a probe says above its twins is a mean of six hours.</summary>
    private static readonly TimeSpan ComparedEvery = TimeSpan.FromSeconds(10);

    /// <summary>The probes that measure the same as one, itself among them.</summary>
    /// <param name="plan">The bay.</param>
    /// <param name="index">The probe's place in the plan.</param>
    /// <returns>Their places in the plan, in its order; none where it has no twin.</returns>
    public static ImmutableArray<int> Of(BayPlan plan, int index)
    {
        ProbeMount mount = plan.Probes[index];
        bool mayHaveTwins = mount.Probe.Measures == Measures.Air || (mount.Probe.Measures == Measures.Panel && mount.Material is not null);
        if (!mayHaveTwins || plan.Probes.Length < 2)
        {
            return [];
        }

        var twins = ImmutableArray.CreateBuilder<int>(plan.Probes.Length);
        for (int i = 0; i < plan.Probes.Length; i++)
        {
            if (IsTwin(mount, plan.Probes[i]))
            {
                twins.Add(i);
            }
        }

        return twins.Count > 1 ? twins.DrainToImmutable() : [];
    }

    /// <summary>Whether a probe tells of a surface under a lamp, or of one that has not cooled yet: then it has no twin.</summary>
    /// <param name="bay">The bay.</param>
    /// <param name="index">The probe's place in the plan.</param>
    /// <param name="at">The instant.</param>
    /// <returns>True from the lamp's beginning on, where the probe shows it or names the surface.</returns>
    public static bool IsLent(BayState bay, int index, DateTimeOffset at) =>
        bay.Plan.Probes[index].Probe.Measures == Measures.Panel && LampHeat.LentTo(bay, index, own: null).Any(l => l.Covers(at));

    /// <summary>Those of them that are heard at present, and say what a sound sensor may of a panel that no lamp heats.</summary>
    /// <param name="bay">The bay.</param>
    /// <param name="twins">Their places in the plan.</param>
    /// <param name="at">The instant.</param>
    /// <returns>Their places in the plan, in its order.</returns>
    public static ImmutableArray<int> Heard(BayState bay, ImmutableArray<int> twins, DateTimeOffset at) =>
        twins.RemoveAll(i => bay.Logs[i] is not { Newest: { } newest } log
            || log.Refused is { } refused && Refusal.IsTheSensors(refused.Why)
            || log.Standing.IsStill
            || new Source(log.Air, log.Probe.Every).IsGapForEvaporation((at - newest.At).Duration())
            || IsLent(bay, i, at));

    /// <summary>What they say.</summary>
    /// <param name="bay">The bay.</param>
    /// <param name="heard">Their places in the plan.</param>
    /// <returns>What each says, in that order.</returns>
    public static Testimony[] Testify(BayState bay, ImmutableArray<int> heard) =>
        [.. heard.Select(i => bay.Logs[i].Testify(bay.Logs[i].Newest!.Value))];

    /// <summary>Whether it is a believed reading's turn to be compared with what its twins say.</summary>
    /// <param name="before">The probe's log before it.</param>
    /// <param name="log">The log with it.</param>
    /// <returns>True for the first look within ten seconds, and where it is the first that is corrected otherwise.</returns>
    internal static bool IsTurn(ProbeLog before, ProbeLog log) =>
        (log.IsLook && TurnOf(log.LookedAt) != TurnOf(before.LookedAt)) || IsCorrectedAnew(before, log);

    /// <summary>Keeps in a probe's log how much its newest reading says above its twins.</summary>
    /// <param name="bay">The bay, the reading taken in.</param>
    /// <param name="index">The probe's place in the plan.</param>
    /// <param name="before">Its log before.</param>
    /// <returns>The bay.</returns>
    internal static BayState Compare(BayState bay, int index, ProbeLog before)
    {
        ProbeLog log = bay.Logs[index];
        if (log.Newest is not { HeldWithinK: 0 } own || own == before.Newest || Of(bay.Plan, index) is not { IsEmpty: false } twins
            || Heard(bay, twins, own.At) is not { Length: > 1 } heard || !heard.Contains(index))
        {
            return bay;
        }

        Accord accord = Accord.Of(Testify(bay, heard));
        ImmutableArray<Testimony> others =
            [.. heard.Where((i, place) => i != index && !accord.IsOdd(place)).Select(i => bay.Logs[i].Testify(bay.Logs[i].Newest!.Value))];
        if (others.IsEmpty)
        {
            return bay;
        }

        Testimony mine = log.Testify(own);
        TwinRecord record = (IsCorrectedAnew(before, log) ? TwinRecord.None : log.Beside).With(
            own.At,
            mine.Kelvins - others.Average(o => o.Kelvins),
            mine.VapourPressurePa > 0 ? others.Average(mine.MoistureAboveAsPct) : 0);
        return bay with { Logs = bay.Logs.SetItem(index, log.Compare(record)) };
    }

    private static long? TurnOf(DateTimeOffset? at) => at?.UtcTicks / ComparedEvery.Ticks;

    /// <summary>From a calibration on it is compared anew, so that the reading that crosses it is not missed.</summary>
    private static bool IsCorrectedAnew(ProbeLog before, ProbeLog log) =>
        before.Newest is { } last && log.Newest is { } own && log.Probe.OffsetAt(last.At) != log.Probe.OffsetAt(own.At);

    /// <summary>Two surfaces may differ by more than any probe errs: what is fixed to another one by name is no twin.</summary>
    private static bool IsTwin(ProbeMount mount, ProbeMount other) =>
        other.Probe.Measures == mount.Probe.Measures && other.Material == mount.Material && other.Surface == mount.Surface && PlaceAir.Of(other.Place) == PlaceAir.Of(mount.Place);
}
