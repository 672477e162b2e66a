using System.Collections.Immutable;
using CureWatch.Curing;
using CureWatch.Handover;
using CureWatch.Panels;
using CureWatch.Planning;
using CureWatch.Products;
using CureWatch.TimeWindows;

namespace CureWatch.Bays;

/// <summary>Whether somebody can start coating at an instant: a car, one of its surfaces, or a kind of surface before there is a car.</summary>
/// <param name="Job">The job; null where there is none yet.</param>
/// <param name="Bay">The bay asked about; null where a job was.</param>
/// <param name="Decision">The decision.</param>
public sealed record StartReport(string? Job, string? Bay, StartDecision Decision)
{
    /// <summary>Answers for a car.</summary>
    /// <param name="shop">The shop.</param>
    /// <param name="id">The job's id; the job must be there.</param>
    /// <param name="surface">The only surface asked about, one of the job's; null for all of them.</param>
    /// <param name="queues">The lines of the bays, where somebody has them already.</param>
    /// <returns>The answer at the shop's present.</returns>
    public static StartReport Of(Shop shop, string id, string? surface = null, BayQueues? queues = null)
    {
        JobState job = shop.Find(id) ?? throw new ArgumentException($"No job '{id}'.", nameof(id));
        Ruling ruling = JobReport.RulingOn(shop, job);
        var scene = new StartScene(shop);
        ImmutableArray<SurfaceArrival> arrivals = ArrivalReport.Of(shop, id).Surfaces;
        StartEvidence[] evidence =
        [
            .. from story in job.Stories
               where surface is null || story.Surface.Id == surface
               let holds = ruling.Holds.Where(h => h.Surface == story.Surface.Id).ToImmutableArray()
               let comesAt = job.IsExpectedAt(shop.Now) ? job.CameAt : (DateTimeOffset?)null
               select scene.Of(job.Job, story, job.Told, holds, arrivals.FirstOrDefault(a => a.Surface.Id == story.Surface.Id)) with { ComesAt = comesAt },
        ];
        bool isAnyOn = job.Stories.Any(s => s.Living.Any());
        StartPromise promise = surface is not null ? StartPromise.None : new StartPromise(
            PromiseReport.PromisedAt(job),
            evidence.Any(e => e.Next is { IsPart: true }) ? PromiseScene.Of(shop, new Present(shop, shop.Now), job, queues: queues).ReadyAt?.Latest
                : isAnyOn ? ruling.ReadyAt?.Latest
                : DateTimeOffset.MinValue,
            at => shop.Plan.Hours.AfterWork(at, shop.Plan.Finishing))
        {
            DryAt = DryAt(shop, job),
            Turn = TurnOf(shop, job, queues),
        };
        return new StartReport(id, null, StartDecision.On(evidence, scene.Day, promise));
    }

    /// <summary>The turn that the promise and the day plan go by.</summary>
    private static StartTurn? TurnOf(Shop shop, JobState job, BayQueues? queues) =>
        !BayQueues.IsBegun(job) && (queues is null ? BayQueues.TurnOf(shop, Supposed.Nothing, job) : queues.Of(job)) is { IsBeyondSight: false } turn
            ? new StartTurn(
                turn.BeginsAt.Latest,
                turn.ReadyAt.Latest is { } ready ? shop.Plan.Hours.AfterWork(ready, shop.Plan.Finishing) : null,
                turn.Ahead?.Job,
                turn.Car.Bay,
                turn.Ahead?.LeavesAt.Latest)
            : null;

    /// <summary>The promise's own rule of when a layer may get wet, by the climate ahead of when it is done.</summary>
    private static Func<LayerWork, TimeBounds?> DryAt(Shop shop, JobState job)
    {
        Supposed supposed = Supposed.Nothing with { AreColdCarsWarm = !BayQueues.IsBegun(job) };
        var ahead = new CoatsAhead(shop, new Present(shop, shop.Now) { Supposed = supposed }, job.Job);
        return work => ahead.DryAt(job.Stories.First(s => s.Surface.Id == work.Surface), work.Layer, work.DoneAt);
    }

    /// <summary>Answers before there is a car.</summary>
    /// <param name="shop">The shop.</param>
    /// <param name="bay">The bay; it must be there.</param>
    /// <param name="sheet">The product's sheet, one of the shop's.</param>
    /// <param name="material">What would be coated.</param>
    /// <param name="place">Where it would be.</param>
    /// <returns>The answer at the shop's present, for one layer.</returns>
    public static StartReport OfBay(Shop shop, string bay, ProductSheet sheet, Material material, Place place = Place.Outside)
    {
        var surface = new Surface(material.ToString().ToLowerInvariant(), material, null, place, sheet.Product, sheet.Revision, 1, 1);
        var job = new Job("", bay, null, null, [surface]);
        var scene = new StartScene(shop);
        StartEvidence evidence = scene.Of(job, Taps.Story(surface, []), null, [], null);
        return new StartReport(null, bay, StartDecision.On([evidence], scene.Day, StartPromise.None));
    }
}
