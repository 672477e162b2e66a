using System.Collections.Immutable;
using System.Diagnostics;
using CureWatch.Curing;
using CureWatch.Handover;
using CureWatch.Panels;
using CureWatch.Products;
using CureWatch.Readings;
using CureWatch.TimeWindows;
using CureWatch.Warnings;

namespace CureWatch.Bays;

/// <summary>Only here does a shop become another: by something that happened.</summary>
public static class Evolution
{
    /// <summary>Takes something that happened in.</summary>
    /// <param name="shop">The shop.</param>
    /// <param name="happened">What happened.</param>
    /// <returns>The shop after it.</returns>
    public static Shop Evolve(Shop shop, ShopEvent happened) => happened switch
    {
        ShopEvent.TimePassed e => shop with { Now = e.At },
        ShopEvent.ReadingBelieved e => Believe(shop, e.Raw),
        ShopEvent.ReadingDoubted e => Doubt(shop, e),
        ShopEvent.JobOpened e => Open(shop, e.Job),
        ShopEvent.TapTakenDown e => TakeDown(shop, e),
        ShopEvent.CondensationBegan e => WithSpells(shop, e.Bay, e.Air, spells => spells.Add(new Spell(e.At, null))),
        ShopEvent.CondensationEnded e => WithSpells(
            shop, e.Bay, e.Air, spells => spells.SetItem(spells.Length - 1, spells[^1] with { To = e.At })),
        ShopEvent.SurfaceOverheated e => WithJob(shop, e.Job, j => j with { Overheats = j.Overheats.Add((e.Surface, e.Overheat)) }),
        ShopEvent.AlarmMoved { Alarm: Alarm.Normal } e => shop with { Alarms = shop.Alarms.Remove(e.Subject) },
        ShopEvent.AlarmMoved e => shop with { Alarms = shop.Alarms.SetItem(e.Subject, e.Alarm) },
        ShopEvent.WarningRaised e => Raise(shop, e.Warning),
        ShopEvent.WarningCleared e => Clear(shop, e),
        ShopEvent.CoatForeseen e => Foresee(shop, e),
        ShopEvent.RulingTurned e => WithJob(shop, e.Job, j => j with { IsReady = e.IsReady }),
        ShopEvent.RulingForeseen e => WithJob(shop, e.Job, j => j with { RuleAt = e.RuleAt }),
        ShopEvent.CarHandedOver e => WithJob(shop, e.Job, j => j with { LeftAt = e.At, RuleAt = null }),
        ShopEvent.PlanReplaced e => Refit(shop, e.Plan),
        ShopEvent.SheetTakenIn e => shop with
        {
            Laws = shop.Laws.Add((e.Sheet.Product, e.Sheet.Revision), CoatLaws.Of(SheetFit.Of(e.Sheet))),
        },
        ShopEvent.RefusalsCounted e => shop with { Tally = shop.Tally.With(e.Counts) },
        _ => throw new UnreachableException(happened.GetType().Name),
    };

    private static Shop Believe(Shop shop, RawReading raw)
    {
        BayState bay = shop.Bays[raw.Bay];
        int index = bay.IndexOf(raw.Probe);
        DateTimeOffset changedFrom = ChangedFrom(bay.Logs[index], raw);
        BayState heard = bay with { Logs = bay.Logs.SetItem(index, bay.Logs[index].Believe(raw)) };
        Shop after = shop with { Bays = shop.Bays.SetItem(raw.Bay, heard), Tally = shop.Tally with { Accepted = shop.Tally.Accepted + 1 } };
        foreach ((WatchPoint point, WatchedClimate climate) in shop.Climates)
        {
            if (point.Bay == raw.Bay)
            {
                WatchedClimate longer = climate.Extend(point.WatchIn(heard.Plan, heard.Logs), changedFrom, shop.Now);
                after = after with { Climates = after.Climates.SetItem(point, longer) };
            }
        }

        return after;
    }

    /// <summary>A probe that was missing for too long did not count since its reading before: what others told then stands.</summary>
    private static DateTimeOffset ChangedFrom(ProbeLog log, RawReading raw)
    {
        DateTimeOffset before = log.ChangesFrom(raw);
        return Source.IsGapForCure(raw.MeasuredAt - before, log.Probe.Every) ? raw.MeasuredAt : before;
    }

    private static Shop Doubt(Shop shop, ShopEvent.ReadingDoubted e)
    {
        Shop after = shop with { Tally = shop.Tally.With([(e.Why, 1)]) };
        if (e.Why is not (Disbelief.Implausible or Disbelief.Frozen))
        {
            return after;
        }

        BayState bay = shop.Bays[e.Raw.Bay];
        int index = bay.IndexOf(e.Raw.Probe);
        ProbeLog log = bay.Logs[index];
        ProbeLog remembering = e.Why == Disbelief.Frozen ? log.Repeat(e.Raw) : log.Suspect(e.Raw);
        return after with { Bays = shop.Bays.SetItem(e.Raw.Bay, bay with { Logs = bay.Logs.SetItem(index, remembering) }) };
    }

    private static Shop Open(Shop shop, Job job)
    {
        ImmutableArray<SurfaceStory> stories = [.. job.Surfaces.Select(s => Taps.Story(s, []))];
        return shop with { Jobs = shop.Jobs.Add(new JobState(job, [], stories, [])) };
    }

    private static Shop TakeDown(Shop shop, ShopEvent.TapTakenDown e)
    {
        Shop told = WithJob(shop, e.Job, job =>
        {
            ImmutableArray<Tap> taps = job.Told.Add(e.Tap);
            return job with { Told = taps, Stories = [.. job.Job.Surfaces.Select(s => Taps.Story(s, taps))] };
        });
        JobState after = told.Find(e.Job)!;
        ImmutableArray<WatchedCoat> watched =
        [
            .. told.Watched.Where(w => w.Key.Job != e.Job),
            .. from story in after.Stories
               from coat in story.Living
               let stays = Stay.Of(told, after.Job.Bay, story)
               select new WatchedCoat(
                   CoatKey.Of(e.Job, coat), story, coat, told.LawsOf(story.Surface), stays[^1].Point, told.Now, IsFollowed: true),
        ];
        return after.LeftAt is null ? UseLaws(told with { Watched = watched }, after) : told;
    }

    private static Shop UseLaws(Shop shop, JobState job)
    {
        foreach (SurfaceStory story in job.Stories)
        {
            ImmutableArray<Coat> living = [.. story.Living];
            if (living.IsEmpty)
            {
                continue;
            }

            DateTimeOffset from = living.Min(c => c.StartedAt);
            foreach (WatchPoint point in Stay.Of(shop, job.Job.Bay, story).Select(s => s.Point).OfType<WatchPoint>().Distinct())
            {
                BayState bay = shop.Bays[point.Bay];
                WatchedClimate climate = shop.Climates.GetValueOrDefault(point, WatchedClimate.Blank);
                climate = climate.Extend(point.WatchIn(bay.Plan, bay.Logs), shop.Now, shop.Now).Use(shop.LawsOf(story.Surface).All, from);
                shop = shop with { Climates = shop.Climates.SetItem(point, climate) };
            }
        }

        return shop;
    }

    private static Shop Foresee(Shop shop, ShopEvent.CoatForeseen e)
    {
        if (e.ReviewAt is { } reviewAt)
        {
            return shop with
            {
                Watched = [.. shop.Watched.Select(w => w.Key == e.Coat ? w with { ReviewAt = reviewAt, IsFollowed = e.IsFollowed } : w)],
            };
        }

        ImmutableArray<WatchedCoat> watched = [.. shop.Watched.Where(w => w.Key != e.Coat)];
        ImmutableHashSet<RateLaw> needed = [.. watched.SelectMany(w => w.Laws.All)];
        return shop with { Watched = watched, Climates = shop.Climates.ToImmutableDictionary(c => c.Key, c => c.Value.Release(needed)) };
    }

    private static Shop Raise(Shop shop, Warning warning) => shop with
    {
        Warnings = shop.Warnings.Add(warning),
        Standing = shop.Standing.Add(warning.Subject, shop.Warnings.Count),
    };

    private static Shop Clear(Shop shop, ShopEvent.WarningCleared e)
    {
        int index = shop.Standing[e.Subject];
        return shop with
        {
            Warnings = shop.Warnings.SetItem(index, shop.Warnings[index] with { ClearedAt = e.At }),
            Standing = shop.Standing.Remove(e.Subject),
        };
    }

    /// <summary>
    /// A probe that is still there goes on where it was. A bay that is gone keeps what was measured in it, for the coats that were there.
    /// </summary>
    private static Shop Refit(Shop shop, ShopPlan plan) => shop with
    {
        Plan = plan,
        Bays = plan.Bays.Aggregate(
            shop.Bays,
            (bays, b) => bays.SetItem(b.Bay, bays.TryGetValue(b.Bay, out BayState? bay) ? bay.Refit(b, shop.Now) : BayState.Opening(b, shop.Now))),
    };

    private static Shop WithJob(Shop shop, string id, Func<JobState, JobState> change) =>
        shop with { Jobs = [.. shop.Jobs.Select(j => j.Job.Id == id ? change(j) : j)] };

    private static Shop WithSpells(Shop shop, string id, Place air, Func<ImmutableArray<Spell>, ImmutableArray<Spell>> change)
    {
        BayState bay = shop.Bays[id];
        BayState changed = bay with { WetSpells = bay.WetSpells.SetItem(air, change(bay.WetSpellsIn(air))) };
        return shop with { Bays = shop.Bays.SetItem(id, changed) };
    }
}
