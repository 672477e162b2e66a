using System.Collections.Immutable;
using CureWatch.Bays;
using CureWatch.Handover;
using CureWatch.Planning;

namespace CureWatch.Reports;

/// <summary>What cannot wait until the shop opens again.</summary>
public static class BeforeLockUp
{
    /// <summary>Finds it among what is to be done on a car.</summary>
    /// <param name="hours">When the shop is open.</param>
    /// <param name="acts">What is to be done, the next first.</param>
    /// <param name="now">The present.</param>
    /// <returns>
    /// In the same order: what flashes is levelled and looked at whatever its deadline says, a layer goes on where its window closes overnight.
    /// </returns>
    public static ImmutableArray<ToldAct> Of(OpeningHours hours, ImmutableArray<ToldAct> acts, DateTimeOffset now) =>
        hours.DayAt(now)?.LocksUp is { } locksUp && hours.DayAt(locksUp) is { } next
            ? [.. acts.Where(a => a.Act is { Kind: ActKind.Level or ActKind.ReWet or ActKind.Look } || (a.Act is { Kind: ActKind.Apply, IsLate: false, By: { } by } && by < next.Opens))]
            : [];
}
