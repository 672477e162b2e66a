using System.Collections.Immutable;
using CureWatch.Readings;
using CureWatch.Warnings;

namespace CureWatch.Bays;

/// <summary>Notices probes that are heard and cannot be believed: a sensor at fault, twins that disagree.</summary>
/// <remarks>
/// Of three or more, the odd one out is not believed from the moment people are told until it has agreed again for a while. Of two that
/// disagree nobody knows which is right: both are followed, and the worse of them governs each bound.
/// </remarks>
internal static class ProbeBelief
{
    /// <summary>Decides what a reading says of its probe.</summary>
    /// <param name="shop">The shop, the reading taken in.</param>
    /// <param name="raw">The reading.</param>
    /// <param name="why">Why it is not believed; null where it is.</param>
    public static IEnumerable<ShopEvent> Decide(Shop shop, RawReading raw, Disbelief? why)
    {
        if (why is { } reason && !Refusal.TellsOfTheProbe(reason))
        {
            return [];
        }

        BayState bay = shop.Bays[raw.Bay];
        int index = bay.IndexOf(raw.Probe);
        ImmutableArray<int> twins = ProbeTwins.Of(bay.Plan, index);
        IEnumerable<ShopEvent> events = Sensor(shop, bay, index, raw, why);
        return !twins.IsEmpty && bay.Logs[index].IsLook ? events.Concat(Twins(shop, bay, twins, index)) : events;
    }

    /// <summary>The alarm of a probe.</summary>
    public static Subject Subject(WarningKind kind, BayState bay, int index) =>
        new(kind) { Bay = bay.Plan.Bay, Probe = bay.Plan.Probes[index].Probe.Id };

    /// <summary>Whether people are told already that a probe is at fault: that it is not believed, or falls silent over it, is the same news.</summary>
    public static bool IsKnownToBeAtFault(BayState bay, int index) =>
        !bay.Alarms.IsEmpty && bay.Alarms.GetValueOrDefault(Subject(WarningKind.ProbeImplausible, bay, index)) is { IsTold: true };

    private static IEnumerable<ShopEvent> Sensor(Shop shop, BayState bay, int index, RawReading raw, Disbelief? why)
    {
        bool isAtFault = why is { } reason && Refusal.IsTheSensors(reason);
        if (!isAtFault && bay.Alarms.IsEmpty)
        {
            return [];
        }

        Subject subject = Subject(WarningKind.ProbeImplausible, bay, index);
        return isAtFault || bay.Alarms.ContainsKey(subject)
            ? Watchman.Look(shop, subject, isAtFault ? 1 : -1, isAtFault ? new Worst(null, BeliefWords.OfFault(raw, why!.Value)) : default)
            : [];
    }

    private static IEnumerable<ShopEvent> Twins(Shop shop, BayState bay, ImmutableArray<int> twins, int index)
    {
        Subject subject = Subject(WarningKind.ProbeDisagreeing, bay, index);
        Alarm before = bay.Alarms.GetValueOrDefault(subject) ?? new Alarm.Normal();
        ImmutableArray<int> heard = ProbeTwins.Heard(bay, twins, shop.Now);
        if (heard.Length < 2 || heard.IndexOf(index) is not (>= 0 and var place))
        {
            bool wasTheLamp = before is Alarm.Pending && twins.Any(i => ProbeTwins.IsLent(bay, i, shop.Now));
            foreach (ShopEvent moved in Watchman.Moved(shop, subject, before, wasTheLamp ? new Alarm.Normal() : before, worst: default))
            {
                yield return moved;
            }

            yield break;
        }

        Testimony[] said = ProbeTwins.Testify(bay, heard);
        Accord accord = Accord.Of(said);
        bool isOdd = accord.IsOdd(place), isBeyond = isOdd || (!accord.HasMajority && place == FirstToDisagree(accord, heard.Length));
        bool isOut = bay.Logs[index] is { OutvotedAt: not null, IsBackInFavour: false };
        Worst words = isBeyond ? new Worst(null, BeliefWords.OfDisagreement(bay, heard, said, accord, place)) : default;
        Alarm after = isBeyond || before is not Alarm.Normal ? before.Look(shop.Now, isBeyond ? 1 : -1, AlarmRule.Of(subject.Kind), words) : before;
        foreach (ShopEvent moved in Watchman.Moved(shop, subject, before, after, words))
        {
            yield return moved;
        }

        if (after.IsTold ? isOdd && !isOut : isOut)
        {
            yield return new ShopEvent.ProbeOutvoted(bay.Plan.Bay, bay.Plan.Probes[index].Probe.Id, after.IsTold ? shop.Now : null);
        }
    }

    /// <summary>Where nobody knows, one warning is about all of them: it is given of the first in the plan that disagrees with one before it.</summary>
    private static int FirstToDisagree(Accord accord, int count)
    {
        for (int place = 1; place < count; place++)
        {
            for (int before = 0; before < place; before++)
            {
                if (!accord.Agree(place, before))
                {
                    return place;
                }
            }
        }

        return -1;
    }
}
