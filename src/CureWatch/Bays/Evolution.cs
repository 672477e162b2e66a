using System.Collections.Immutable;
using System.Diagnostics;
using CureWatch.Curing;
using CureWatch.Panels;
using CureWatch.Products;
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
        ShopEvent.ReadingBelieved e => Hearing.Believe(shop, e),
        ShopEvent.ReadingDoubted e => Hearing.Doubt(shop, e),
        _ => EvolveRarely(shop, happened),
    };

    /// <summary>By what no reading brings with it each time: the functions below take room for all they may need.</summary>
    private static Shop EvolveRarely(Shop shop, ShopEvent happened) => happened switch
    {
        ShopEvent.ValueStood e => Hearing.Stand(shop, e),
        ShopEvent.ValueMoved e => Hearing.Move(shop, e),
        ShopEvent.ProbeOutvoted e => Hearing.Outvote(shop, e),
        ShopEvent.BacklogFollowed e => Hearing.CatchUp(shop, e),
        ShopEvent.JobOpened e => Open(shop, e),
        ShopEvent.TapTakenDown e => TakeDown(shop, e),
        ShopEvent.CondensationBegan e => WithSpells(shop, e.Bay, e.Air, spells => spells.Add(new Spell(e.At, null))),
        ShopEvent.CondensationEnded e => WithSpells(
            shop, e.Bay, e.Air, spells => spells.SetItem(spells.Length - 1, spells[^1] with { To = e.At })),
        ShopEvent.CondensationWithdrawn e => WithSpells(shop, e.Bay, e.Air, spells => spells.Remove(new Spell(e.At, e.At))),
        ShopEvent.SurfaceOverheated e => WithJob(shop, e.Job, j => j with { Overheats = j.Overheats.Add((e.Surface, e.Overheat)) }),
        ShopEvent.AlarmMoved e => Move(shop, e),
        ShopEvent.WarningRaised e => Raise(shop, e.Warning),
        ShopEvent.WarningCleared e => Clear(shop, e),
        ShopEvent.WarningReworded e => shop with { Warnings = shop.Warnings.SetItem(shop.Standing[e.Warning.Subject], e.Warning) },
        ShopEvent.CoatForeseen e => Foresee(shop, e),
        ShopEvent.BayForeseen e => shop.With(shop.Bays[e.Bay] with { Ahead = e.Ahead }),
        ShopEvent.RulingTurned e => WithJob(shop, e.Job, j => j with { IsReady = e.IsReady }),
        ShopEvent.RulingForeseen e => WithJob(shop, e.Job, j => j with { RuleAt = e.RuleAt }),
        ShopEvent.PromiseWatched e => WithJob(shop, e.Job, j => j with { Promise = e.Watch }),
        ShopEvent.LampForeseen e => WithJob(shop, e.Job, j => j with { LampLookAt = e.LookAt }),
        ShopEvent.CarHandedOver e => NearbyLamp.PutOut(WithJob(shop, e.Job, j => j with { LeftAt = e.At, RuleAt = null }), e.Job),
        ShopEvent.JobClosed e => shop.Without(shop.Jobs[e.Last.Job.Id]),
        ShopEvent.PlanReplaced e => Refit(shop, e.Plan),
        ShopEvent.SheetTakenIn e => shop with
        {
            Laws = shop.Laws.Add((e.Sheet.Product, e.Sheet.Revision), CoatLaws.Of(SheetFit.Of(e.Sheet))),
        },
        ShopEvent.RefusalsCounted e => shop with { Tally = shop.Tally.With(e.Counts) },
        ShopEvent.LessonsDrawn e => LessonDraws.Take(shop, e),
        ShopEvent.LearningReset e => LessonDraws.Reset(shop, e),
        ShopEvent.WorkPlanned e => shop with { Planned = Conflicts.With(shop, e.Work) },
        ShopEvent.WorkDropped e => shop with { Planned = shop.Planned.RemoveAll(w => w.Id == e.Id) },
        ShopEvent.VisitPlanned e => WithJob(shop, e.Job, j => j with { Job = j.Job with { Visit = e.Visit } }),
        ShopEvent.ConflictsForeseen e => shop with { ConflictsDueAt = e.At },
        _ => throw new UnreachableException(happened.GetType().Name),
    };

    private static Shop Move(Shop shop, ShopEvent.AlarmMoved e)
    {
        BayState bay = shop.Bays[e.Subject.Bay!];
        return shop.With(bay with
        {
            Alarms = e.Alarm is Alarm.Normal ? bay.Alarms.Remove(e.Subject) : bay.Alarms.SetItem(e.Subject, e.Alarm),
        });
    }

    private static Shop Open(Shop shop, ShopEvent.JobOpened e)
    {
        Job job = e.Job;
        ImmutableArray<SurfaceStory> stories = [.. job.Surfaces.Select(s => Taps.Story(s, []))];
        Shop after = shop.With(new JobState(job, shop.JobsBegun, shop.Now, [], stories, [], []) { Lessons = JobLessons.At(e.Begun) });
        return after with { JobsBegun = shop.JobsBegun + 1 };
    }

    private static Shop TakeDown(Shop shop, ShopEvent.TapTakenDown e)
    {
        JobState before = shop.Jobs[e.Job];
        ImmutableArray<Tap> taps = before.Told.Add(e.Tap);
        JobState after = before with { Told = taps, Stories = [.. before.Job.Surfaces.Select(s => Taps.Story(s, taps))] };
        after = after with { Lessons = after.Lessons.Told(shop, after) };
        shop = ToldWork.Follow(shop, after);
        if (after.LeftAt is not null)
        {
            return shop.With(after);
        }

        return NearbyLamp.Follow(UseLaws(HeatTold.Apply(Watch(shop, after, Living(shop, after)), after, e.Tap), after), after);
    }

    private static ImmutableArray<WatchedCoat> Living(Shop shop, JobState job) =>
    [
        .. from story in job.Stories
           from coat in story.Living
           let stays = Stay.Of(shop, job.Job, story)
           select new WatchedCoat(
               CoatKey.Of(job.Job.Id, coat), story, coat, shop.LawsOf(coat), stays[^1].Point, shop.Now, FollowedFrom: shop.Now),
    ];

    /// <summary>Watches these coats of a job, and no others.</summary>
    private static Shop Watch(Shop shop, JobState job, ImmutableArray<WatchedCoat> watched)
    {
        Shop after = shop.With(job with { Watched = watched });
        HashSet<string> bays = BaysOf(watched);
        foreach (string id in BaysOf(shop.Jobs[job.Job.Id].Watched).Union(bays).Order(StringComparer.Ordinal))
        {
            BayState bay = after.Bays[id];
            bay = bay with { Jobs = bays.Contains(id) ? bay.Jobs.Add(job.Job.Id) : bay.Jobs.Remove(job.Job.Id) };
            after = after.With(bay with { Open = OpenCoats.In(after, bay) });
        }

        return after;
    }

    private static HashSet<string> BaysOf(ImmutableArray<WatchedCoat> watched) => [.. watched.Select(w => w.Point?.Bay).OfType<string>()];

    private static Shop UseLaws(Shop shop, JobState job)
    {
        var present = new Present(shop, shop.Now); // laws change nothing of what the probes say
        foreach (SurfaceStory story in job.Stories)
        {
            ImmutableArray<Coat> living = [.. story.Living];
            if (living.IsEmpty)
            {
                continue;
            }

            DateTimeOffset from = living.Min(c => c.StartedAt);
            RateLaw[] laws = [.. living.Select(shop.LawsOf).Distinct().SelectMany(l => l.All)];
            foreach (WatchPoint point in Stay.Of(shop, job.Job, story).Select(s => s.Point).OfType<WatchPoint>().Distinct())
            {
                BayState bay = shop.Bays[point.Bay];
                WatchedClimate climate = bay.Climates.GetValueOrDefault(point) ?? HeatTold.Begin(bay, point);
                climate = climate.Extend(present.WatchAt(point), shop.Now, shop.Now).Use(laws, from);
                shop = shop.With(bay with { Climates = bay.Climates.SetItem(point, climate) });
            }
        }

        return shop;
    }

    private static Shop Foresee(Shop shop, ShopEvent.CoatForeseen e)
    {
        JobState job = shop.Jobs[e.Coat.Job];
        if (e.ReviewAt is { } reviewAt)
        {
            ImmutableArray<WatchedCoat> moved =
                [.. job.Watched.Select(w => w.Key == e.Coat ? w with { ReviewAt = reviewAt, FollowedFrom = e.FollowedFrom, IsDry = e.IsDry } : w)];
            bool isAsDryAsBefore = job.Watched.First(w => w.Key == e.Coat).IsDry == e.IsDry;
            return isAsDryAsBefore ? shop.With(job with { Watched = moved }) : Watch(shop, job, moved);
        }

        WatchedCoat let = job.Watched.First(w => w.Key == e.Coat);
        Shop after = Watch(shop, job, job.Watched.Remove(let));
        return let.Point is { } point ? Release(after, after.Bays[point.Bay]) : after;
    }

    /// <summary>Leaves only the laws in use that a coat in the bay still needs.</summary>
    private static Shop Release(Shop shop, BayState bay)
    {
        ImmutableHashSet<RateLaw> needed = [.. bay.Open.SelectMany(o => o.Laws.All)];
        return shop.With(bay with { Climates = bay.Climates.ToImmutableDictionary(c => c.Key, c => c.Value.Release(needed)) });
    }

    private static Shop Raise(Shop shop, Warning warning) => shop with
    {
        Warnings = shop.Warnings.Add(shop.WarningsGiven, warning),
        WarningsGiven = shop.WarningsGiven + 1,
        Standing = shop.Standing.Add(warning.Subject, shop.WarningsGiven),
    };

    private static Shop Clear(Shop shop, ShopEvent.WarningCleared e)
    {
        int number = shop.Standing[e.Subject];
        return shop with
        {
            Warnings = shop.Warnings.SetItem(number, shop.Warnings[number] with { ClearedAt = e.At }),
            Standing = shop.Standing.Remove(e.Subject),
        };
    }

    /// <summary>
    /// A probe that is still there goes on where it was. A bay that is gone keeps what was measured in it, for the coats that were there.
    /// </summary>
    private static Shop Refit(Shop shop, ShopPlan plan)
    {
        shop = Hearing.FollowAll(shop);
        HashSet<string> there = [.. plan.Bays.Select(b => b.Bay)];
        Shop after = shop.SetUp(plan);
        foreach (BayState gone in shop.Bays.Values.Where(b => !there.Contains(b.Plan.Bay)))
        {
            after = after.With(gone with { IsGone = true });
        }

        after = after with { Bays = after.Bays.And(plan.Bays.Where(b => shop.Bays.Find(b.Bay) is null).Select(b => BayState.Opening(b, shop.Now))) };
        after = plan.Bays.Aggregate(after, (s, b) => s.With(shop.Bays.Find(b.Bay)?.Refit(b, s.Now) ?? s.Bays[b.Bay]));
        return shop.Jobs.Values.Where(j => IsSeenFromElsewhere(after, j)).OrderBy(j => j.Job.Id, StringComparer.Ordinal).Aggregate(
            after, (s, j) => UseLaws(j.LeftAt is null ? Watch(s, j, Living(s, j)) : s, j));
    }

    /// <summary>A probe that is now named for a surface, or no longer, gives it another point, whose climate is followed from all that was kept.</summary>
    private static bool IsSeenFromElsewhere(Shop shop, JobState job) =>
        job.Stories.Where(s => s.Living.Any()).SelectMany(s => Stay.Of(shop, job.Job, s)).Any(s => s.Point is { } point && shop.ClimateAt(point) is null);

    private static Shop WithJob(Shop shop, string id, Func<JobState, JobState> change) => shop.With(change(shop.Jobs[id]));

    private static Shop WithSpells(Shop shop, string id, Place air, Func<ImmutableArray<Spell>, ImmutableArray<Spell>> change)
    {
        BayState bay = shop.Bays[id];
        return shop.With(bay with { WetSpells = bay.WetSpells.SetItem(air, change(bay.WetSpellsIn(air))) });
    }
}
