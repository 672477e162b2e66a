using System.Collections.Immutable;
using CureWatch.Warnings;

namespace CureWatch.Bays;

/// <summary>Turns what alarms do into what people are told.</summary>
internal static class Watchman
{
    /// <summary>Lets an alarm take a measurement in.</summary>
    public static IEnumerable<ShopEvent> Look(Shop shop, Subject subject, double excess, Worst worst)
    {
        ImmutableSortedDictionary<Subject, Alarm> alarms = shop.Bays[subject.Bay!].Alarms;
        if (!(excess > 0) && (alarms.IsEmpty || !alarms.ContainsKey(subject)))
        {
            return []; // nothing is wrong, nor was
        }

        Alarm before = alarms.GetValueOrDefault(subject) ?? new Alarm.Normal();
        return Moved(shop, subject, before, before.Look(shop.Now, excess, AlarmRule.Of(subject.Kind), worst), worst);
    }

    /// <summary>Judges every alarm of a bay that is due; one that another has moved meanwhile is done with.</summary>
    public static IEnumerable<ShopEvent> JudgeDue(Shop shop, BayState bay)
    {
        var moved = new HashSet<Subject>();
        foreach ((Subject subject, Alarm alarm) in bay.Alarms)
        {
            AlarmRule rule = AlarmRule.Of(subject.Kind);
            if (!(alarm.DueAt(rule) <= shop.Now) || moved.Contains(subject))
            {
                continue;
            }

            foreach (ShopEvent happened in Moved(shop, subject, alarm, alarm.Judge(shop.Now, rule), alarm is Alarm.Pending pending ? pending.Worst : default))
            {
                _ = happened is ShopEvent.AlarmMoved e && moved.Add(e.Subject);
                yield return happened;
            }
        }
    }

    /// <summary>Raises or clears a warning whose cause is exact.</summary>
    public static IEnumerable<ShopEvent> Tell(Shop shop, Subject subject, bool stands, TimeSpan? lead = null)
    {
        bool stood = shop.Standing.ContainsKey(subject);
        if (stands && !stood)
        {
            yield return new ShopEvent.WarningRaised(new Warning(subject, subject.Surface, shop.Now, null, lead));
        }
        else if (!stands && stood)
        {
            yield return new ShopEvent.WarningCleared(subject, shop.Now);
        }
    }

    /// <summary>Moves an alarm, and tells people where that raises or clears it; what is worst off is a surface, or a probe in words.</summary>
    public static IEnumerable<ShopEvent> Moved(Shop shop, Subject subject, Alarm before, Alarm after, Worst worst)
    {
        if (after == before)
        {
            yield break;
        }

        yield return new ShopEvent.AlarmMoved(subject, after);
        if (after.IsTold && !before.IsTold)
        {
            foreach (ShopEvent over in CameTrue(shop, subject))
            {
                yield return over;
            }

            yield return new ShopEvent.WarningRaised(AheadWords.Explained(shop, subject.Probe is null
                ? new Warning(subject, worst.Surface, shop.Now, null, null)
                : new Warning(subject, null, shop.Now, null, null) { Detail = worst.Said }));
        }
        else if (!after.IsTold && before.IsTold)
        {
            yield return new ShopEvent.WarningCleared(subject, shop.Now);
        }
    }

    /// <summary>What was told ahead is over once it happens: the warning of it takes its place.</summary>
    private static IEnumerable<ShopEvent> CameTrue(Shop shop, Subject subject)
    {
        if (Foreseen.AheadOf(subject.Kind) is not { } kind || subject with { Kind = kind, Surface = null } is not { Bay: { } bay } ahead
            || !shop.Bays[bay].Alarms.TryGetValue(ahead, out Alarm? alarm))
        {
            yield break;
        }

        yield return new ShopEvent.AlarmMoved(ahead, new Alarm.Normal());
        if (alarm.IsTold)
        {
            yield return new ShopEvent.WarningCleared(ahead, shop.Now);
        }
    }
}
