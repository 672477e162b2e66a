using CureWatch.Readings;
using CureWatch.Warnings;

namespace CureWatch.Bays;

/// <summary>Notices probes that are not heard.</summary>
public static class ProbeSilence
{
    /// <summary>Decides which probes of a bay fell silent, or are heard again.</summary>
    /// <param name="shop">The shop.</param>
    /// <param name="bay">The bay.</param>
    /// <returns>What happened.</returns>
    public static IEnumerable<ShopEvent> Decide(Shop shop, BayState bay) =>
        from index in bay.IsGone ? [] : Enumerable.Range(0, bay.Logs.Length)
        let log = bay.Logs[index]
        let subject = Subject(bay.Plan, log)
        let before = bay.Alarms.GetValueOrDefault(subject) ?? new Alarm.Normal()
        let isSilent = shop.Now >= log.QuietAt && !ProbeBelief.IsKnownToBeAtFault(bay, index)
        where isSilent ? before is not Alarm.Raised : before is Alarm.Raised
        from happened in Watchman.Moved(shop, subject, before, isSilent ? new Alarm.Raised() : new Alarm.Returning(shop.Now, 1, 1), new Worst(null, BeliefWords.OfClock(log, shop.Now)))
        select happened;

    /// <summary>When the next probe of a bay falls silent, if none is heard before.</summary>
    /// <param name="bay">The bay.</param>
    /// <returns>The instant; null where all that can have.</returns>
    public static DateTimeOffset? NextIn(BayState bay)
    {
        DateTimeOffset? next = null;
        for (int i = 0; i < bay.Logs.Length; i++)
        {
            ProbeLog log = bay.Logs[i];
            bool isTold = !bay.Alarms.IsEmpty && bay.Alarms.GetValueOrDefault(Subject(bay.Plan, log)) is Alarm.Raised;
            if (!(next <= log.QuietAt) && !isTold && !ProbeBelief.IsKnownToBeAtFault(bay, i))
            {
                next = log.QuietAt;
            }
        }

        return next;
    }

    private static Subject Subject(BayPlan plan, ProbeLog log) => new(WarningKind.ProbeSilent) { Bay = plan.Bay, Probe = log.Probe.Id };
}
