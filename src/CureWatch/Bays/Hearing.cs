using System.Collections.Immutable;
using CureWatch.Panels;
using CureWatch.Readings;

namespace CureWatch.Bays;

/// <summary>How a bay becomes another by what its probes say.</summary>
internal static class Hearing
{
    /// <summary>Takes a believed reading in.</summary>
    public static Shop Believe(Shop shop, ShopEvent.ReadingBelieved e) =>
        Believe(shop, shop.Tally with { Accepted = shop.Tally.Accepted + 1 }, e.Raw, held: null, why: null);

    /// <summary>Remembers a reading that was not believed; one of which only the temperature was not counts with what is held for it.</summary>
    public static Shop Doubt(Shop shop, ShopEvent.ReadingDoubted e)
    {
        ReadingTally tally = shop.Tally.With([(e.Why, 1)]);
        if (e.IsFollowed)
        {
            return Believe(shop, tally, e.Raw, e.Held, e.Why);
        }

        shop = shop with { Tally = tally };

        bool tells = Refusal.TellsOfTheProbe(e.Why);
        if (!tells && !Refusal.IsForItsInstant(e.Why))
        {
            return shop;
        }

        BayState bay = shop.Bays[e.Raw.Bay];
        int index = bay.IndexOf(e.Raw.Probe);
        ProbeLog log = bay.Logs[index];
        BayState after = bay with { Logs = bay.Logs.SetItem(index, tells ? log.Refuse(e.Raw, e.Why) : log.Time(e.Raw, e.Why)) };
        return shop.With(e.Why == Disbelief.Disagreeing ? ProbeTwins.Compare(after, index, log) : after);
    }

    /// <summary>Takes what no coat waits for up to the present, before other probes tell of it: what these measured stays.</summary>
    public static Shop FollowAll(Shop shop)
    {
        foreach (BayState bay in shop.Bays.Values.Where(b => b.Climates.Values.Any(c => !c.IsAwaited)))
        {
            shop = shop.With(Followed(shop, bay));
        }

        return shop;
    }

    private static BayState Followed(Shop shop, BayState bay)
    {
        var watches = new Watches(shop, bay);
        return bay with { Climates = bay.Climates.ToImmutableDictionary(c => c.Key, c => c.Value.CaughtUp(watches.Of(c.Key), shop.Now)) };
    }

    /// <summary>Leaves a probe out that the others contradict.</summary>
    public static Shop Outvote(Shop shop, ShopEvent.ProbeOutvoted e)
    {
        shop = FollowAll(shop);
        BayState bay = shop.Bays[e.Bay];
        int index = bay.IndexOf(e.Probe);
        BayState turned = bay with { Logs = bay.Logs.SetItem(index, bay.Logs[index].Outvote(e.At)) };
        return shop.With(turned with { Climates = Follow(shop, turned, shop.Now) });
    }

    /// <summary>Follows what came late, all of it at once.</summary>
    public static Shop CatchUp(Shop shop, ShopEvent.BacklogFollowed e)
    {
        BayState bay = shop.Bays[e.Bay];
        return bay.Backlog is { From: var from } ? shop.With(bay with { Backlog = null, Climates = Follow(shop, bay, from) }) : shop;
    }

    /// <summary>Believes nothing of what a probe repeated, since it began to.</summary>
    public static Shop Stand(Shop shop, ShopEvent.ValueStood e) =>
        Read(shop, e.Bay, e.Probe, log => log.As(log.Standing.With(e.Still)), e.Still.From.At);

    /// <summary>Takes a probe that moved again for what it says, and what it repeated for what lies between, or for what it was.</summary>
    public static Shop Move(Shop shop, ShopEvent.ValueMoved e)
    {
        BayState bay = shop.Bays[e.Bay];
        return bay.Logs[bay.IndexOf(e.Probe)].Standing.Open(e.What) is { } still
            ? Read(shop, e.Bay, e.Probe, log => log.As(log.Standing.Move(still, log.Newest!.Value, e.IsBorneOut)), still.From.At)
            : shop;
    }

    /// <summary>Follows a bay anew from an instant on, since a probe is to be read otherwise.</summary>
    private static Shop Read(Shop shop, string id, string probe, Func<ProbeLog, ProbeLog> turn, DateTimeOffset from)
    {
        BayState bay = shop.Bays[id];
        int index = bay.IndexOf(probe);
        BayState turned = bay with { Logs = bay.Logs.SetItem(index, turn(bay.Logs[index])) };
        return shop.With(turned with { Climates = Follow(shop, turned, from) });
    }

    private static Shop Believe(Shop shop, ReadingTally tally, RawReading raw, HeldTemperature? held, Disbelief? why)
    {
        BayState bay = shop.Bays[raw.Bay];
        int index = bay.IndexOf(raw.Probe);
        bay = bay.Logs[index] is { Newest: not null, OutvotedAt: null } || bay.Climates.IsEmpty ? bay : Followed(shop, bay); // who is heard anew tells of no time before
        DateTimeOffset before = bay.Logs[index].ChangesFrom(raw);
        bool wasMissing = Source.IsGapForCure(raw.MeasuredAt - before, bay.Logs[index].Probe.Every);
        DateTimeOffset changedFrom = wasMissing ? raw.MeasuredAt : before; // what others told while it was missing for too long stands
        ProbeLog log = bay.Logs[index].Believe(raw, held, why);
        ImmutableArray<ProbeLog> logs = bay.Logs.SetItem(index, log);
        BayState heard = bay with { Logs = logs, ReadingsToTidy = bay.ReadingsToTidy - 1 };
        heard = wasMissing && log.Probe.Measures == Measures.Panel ? Confirm(shop, heard, before) : heard;
        heard = IsSettled(shop, heard, index, changedFrom) ? heard with { Backlog = Backlog.With(bay.Backlog, changedFrom, shop.Now) }
            : log.IsLook && heard.Together(shop.Now).LookAt <= shop.Now ? heard with { Climates = Follow(shop, heard, DateTimeOffset.MaxValue) } // nothing that is settled changes
            : heard;
        heard = HourlyClimate.Hear(shop, heard);
        heard = ProbeTwins.IsTurn(bay.Logs[index], log) ? ProbeTwins.Compare(heard, index, bay.Logs[index]) : heard;
        return shop.With(heard.ReadingsToTidy > 0 ? heard : History.Tidy(shop, heard), tally);
    }

    /// <summary>Whether anything after an instant is settled that a probe tells of.</summary>
    private static bool IsSettled(Shop shop, BayState bay, int probe, DateTimeOffset instant)
    {
        if (!(bay.Together(shop.Now).SettledTo > instant))
        {
            return false;
        }

        foreach ((WatchPoint point, WatchedClimate climate) in bay.Climates)
        {
            if (climate.Track.SettledTo > instant && point.IsToldBy(bay, probe))
            {
                return true;
            }
        }

        return false;
    }

    private static ImmutableDictionary<WatchPoint, WatchedClimate> Follow(Shop shop, BayState bay, DateTimeOffset changedFrom)
    {
        ImmutableDictionary<WatchPoint, WatchedClimate> climates = bay.Climates;
        var watches = new Watches(shop, bay);
        foreach ((WatchPoint point, WatchedClimate climate) in bay.Climates)
        {
            if (climate.HasToFollow(changedFrom, shop.Now))
            {
                climates = climates.SetItem(point, climate.Follow(watches.Of(point), changedFrom, shop.Now));
            }
        }

        return climates;
    }

    /// <summary>What was left open while a panel was waited for counts now that it is heard again.</summary>
    private static BayState Confirm(Shop shop, BayState heard, DateTimeOffset since)
    {
        var watches = new Watches(shop, heard);
        return heard with { Climates = heard.Climates.ToImmutableDictionary(c => c.Key, c => c.Value.Confirm(watches.Of(c.Key), since, shop.Now)) };
    }
}
