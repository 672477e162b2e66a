using CureWatch.Handover;
using CureWatch.Warnings;

namespace CureWatch.Bays;

/// <summary>Rules on the cars that are here when their ruling may have turned, and foresees when to rule again.</summary>
public static class Rulings
{
    /// <summary>Closer than this the end itself is awaited. Source (choice).</summary>
    private static readonly TimeSpan Soon = TimeSpan.FromMinutes(2);

    /// <summary>
    /// The least between two looks at an end [5 s]: while the next reading stays away the slow bound earns next to nothing, and an end that is near recedes as fast
    /// as time goes. Source (choice): nobody minds a car that may leave five seconds later.
    /// </summary>
    private static readonly TimeSpan Shortest = TimeSpan.FromSeconds(5);

    /// <summary>How long a car sleeps whose end is not in sight in this climate. Source (choice).</summary>
    private static readonly TimeSpan SleepWithoutEnd = TimeSpan.FromHours(2);

    /// <summary>Decides what turned.</summary>
    /// <param name="shop">The shop.</param>
    /// <param name="happened">What happened so far.</param>
    /// <param name="first">Where in it this instant begins.</param>
    /// <returns>What happened.</returns>
    public static IEnumerable<ShopEvent> Decide(Shop shop, IReadOnlyList<ShopEvent> happened, int first)
    {
        List<string>? touched = null;
        for (int i = first; i < happened.Count; i++)
        {
            if (TouchedBy(shop, happened[i]) is { } jobsOf)
            {
                (touched ??= []).AddRange(jobsOf);
            }
        }

        return touched is null && !(shop.DueJobs.NextAt <= shop.Now) ? [] : Rule(shop, touched ?? []);
    }

    private static IEnumerable<ShopEvent> Rule(Shop shop, List<string> touched)
    {
        var jobs = new SortedSet<string>(touched, StringComparer.Ordinal);
        jobs.UnionWith(shop.DueJobs.DueBy(shop.Now).Where(j => shop.Jobs[j].RuleAt <= shop.Now));
        return jobs.Select(j => shop.Jobs[j]).Where(j => j.LeftAt is null).SelectMany(j => Rule(shop, j));
    }

    private static IEnumerable<string>? TouchedBy(Shop shop, ShopEvent happened) => happened switch
    {
        ShopEvent.TapTakenDown e => [e.Job],
        ShopEvent.SurfaceOverheated e => [e.Job],
        ShopEvent.WarningCleared { Subject: { Kind: WarningKind.ProbeSilent, Bay: { } bay } } => shop.Bays[bay].Jobs,
        ShopEvent.CondensationBegan or ShopEvent.CondensationEnded or ShopEvent.CondensationWithdrawn or ShopEvent.PlanReplaced => shop.Jobs.Keys,
        ShopEvent.ValueStood or ShopEvent.ValueMoved => shop.Jobs.Keys,
        _ => null,
    };

    private static IEnumerable<ShopEvent> Rule(Shop shop, JobState job)
    {
        Ruling ruling = JobReport.RulingOn(shop, job);
        if (ruling.IsReady != job.IsReady)
        {
            yield return new ShopEvent.RulingTurned(job.Job.Id, ruling.IsReady, shop.Now);
        }

        yield return new ShopEvent.RulingForeseen(job.Job.Id, NextAfter(shop.Now, ruling));
    }

    /// <summary>The end moves with the climate, so a car is looked at again half-way to it, and at the end.</summary>
    private static DateTimeOffset? NextAfter(DateTimeOffset now, Ruling ruling)
    {
        if (ruling.ReadyAt is not { } readyAt)
        {
            return null;
        }

        if (readyAt.Latest is not { } latest)
        {
            return now + SleepWithoutEnd;
        }

        if (latest <= now)
        {
            return now - latest < Readings.ProbeLog.LatestArrival ? now + Soon : null; // readings that come late may still move it
        }

        return latest - now > Soon ? now + ((latest - now) / 2)
            : latest - now > Shortest ? latest
            : now + Shortest;
    }
}
