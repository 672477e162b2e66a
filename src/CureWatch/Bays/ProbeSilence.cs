using CureWatch.Readings;
using CureWatch.Warnings;

namespace CureWatch.Bays;

/// <summary>Notices probes that are not heard.</summary>
public static class ProbeSilence
{
    /// <summary>Decides which probes fell silent, or are heard again.</summary>
    /// <param name="shop">The shop.</param>
    /// <returns>What happened.</returns>
    public static IEnumerable<ShopEvent> Decide(Shop shop) =>
        from plan in shop.Plan.Bays
        let bay = shop.Bays[plan.Bay]
        from log in bay.Logs
        let subject = Subject(plan, log)
        let before = shop.Alarms.GetValueOrDefault(subject) ?? new Alarm.Normal()
        let isSilent = shop.Now >= log.SilentAt
        where isSilent ? before is not Alarm.Raised : before is Alarm.Raised
        from happened in Watchman.Moved(shop, subject, before, isSilent ? new Alarm.Raised() : new Alarm.Returning(shop.Now, 1, 1), null)
        select happened;

    /// <summary>When the next probe falls silent, if none is heard before.</summary>
    /// <param name="shop">The shop.</param>
    /// <returns>The instant; null where all that can have.</returns>
    public static DateTimeOffset? NextAt(Shop shop)
    {
        DateTimeOffset? next = null;
        foreach (BayPlan plan in shop.Plan.Bays)
        {
            foreach (ProbeLog log in shop.Bays[plan.Bay].Logs)
            {
                if (!(next <= log.SilentAt) && shop.Alarms.GetValueOrDefault(Subject(plan, log)) is not Alarm.Raised)
                {
                    next = log.SilentAt;
                }
            }
        }

        return next;
    }

    private static Subject Subject(BayPlan plan, ProbeLog log) => new(WarningKind.ProbeSilent, plan.Bay, log.Probe.Id, null, null, 0, 0);
}
