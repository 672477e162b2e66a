using CureWatch.Warnings;

namespace CureWatch.Bays;

/// <summary>Turns what alarms do into what people are told.</summary>
internal static class Watchman
{
    /// <summary>Lets an alarm take a measurement in.</summary>
    public static IEnumerable<ShopEvent> Look(Shop shop, Subject subject, double excess, string? worst)
    {
        Alarm before = shop.Bays[subject.Bay!].Alarms.GetValueOrDefault(subject) ?? new Alarm.Normal();
        return Moved(shop, subject, before, before.Look(shop.Now, excess, AlarmRule.Of(subject.Kind), worst), worst);
    }

    /// <summary>Judges every alarm of a bay that is due.</summary>
    public static IEnumerable<ShopEvent> JudgeDue(Shop shop, BayState bay) =>
        from pair in bay.Alarms
        let rule = AlarmRule.Of(pair.Key.Kind)
        where pair.Value.DueAt(rule) <= shop.Now
        from happened in Moved(shop, pair.Key, pair.Value, pair.Value.Judge(shop.Now, rule), (pair.Value as Alarm.Pending)?.Worst)
        select happened;

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
    public static IEnumerable<ShopEvent> Moved(Shop shop, Subject subject, Alarm before, Alarm after, string? worst)
    {
        if (after == before)
        {
            yield break;
        }

        yield return new ShopEvent.AlarmMoved(subject, after);
        if (after.IsTold && !before.IsTold)
        {
            yield return new ShopEvent.WarningRaised(subject.Probe is null
                ? new Warning(subject, worst, shop.Now, null, null)
                : new Warning(subject, null, shop.Now, null, null) { Detail = worst });
        }
        else if (!after.IsTold && before.IsTold)
        {
            yield return new ShopEvent.WarningCleared(subject, shop.Now);
        }
    }
}
