using System.Collections.Immutable;
using CureWatch.Curing;
using CureWatch.Planning;
using CureWatch.TimeWindows;

namespace CureWatch.Bays;

/// <summary>Lines the cars of a bay up.</summary>
internal sealed class BayLining(Shop shop, Supposed supposed, BayQueues queues, string bay)
{
    private static readonly Func<TimeBounds, DateTimeOffset?>[] Paces = [b => b.Earliest, b => b.Likely, b => b.Latest];

    private readonly ShopHours _hours = queues.Hours;
    private readonly Present _present = new(shop, shop.Now) { Supposed = supposed };
    private readonly Present _warm = new(shop, shop.Now) { Supposed = supposed with { AreColdCarsWarm = true } };
    private readonly StartScene _scene = new(shop, supposed);

    /// <summary>Lines the cars up.</summary>
    /// <param name="through">The last that is asked about; null for all of them.</param>
    public BayLine Line(string? through = null)
    {
        JobState[] jobs = [.. queues.JobsIn(bay)];
        BayFree[] free = [BayFree.Now, BayFree.Now, BayFree.Now];
        foreach (JobState begun in jobs.Where(j => BayQueues.IsBegun(j) && queues.BayOf(j) is not null))
        {
            Leave(free, begun, queues.LeavesAt(queues.ReadyAt(_present, begun, PromiseScene.Of(shop, _present, begun))));
        }

        BayFree fromHere = free[^1];
        var waiting = ImmutableArray.CreateBuilder<QueuedCar>();
        foreach (JobState next in jobs.Where(j => !BayQueues.IsBegun(j))
            .OrderBy(j => !IsWorkedOn(j)).ThenBy(j => !IsIn(j)).ThenBy(j => j.Job.Visit?.PlannedAt ?? j.CameAt).ThenBy(j => j.Number))
        {
            QueuedCar car = Place(next, IsWorkedOn(next) ? [BayFree.Now, BayFree.Now, BayFree.Now] : [.. free]);
            waiting.Add(car);
            if (next.Job.Id == through)
            {
                break;
            }

            if (!car.IsBeyondSight && (IsIn(next) || car.Chosen is not null))
            {
                Leave(free, next, queues.LeavesAt(car.ReadyAt));
            }
        }

        return new BayLine(free[^1], fromHere, waiting.ToImmutable());
    }

    private static void Leave(BayFree[] free, JobState job, TimeBounds leaves)
    {
        for (int pace = 0; pace < free.Length; pace++)
        {
            free[pace] = free[pace].After(Paces[pace](leaves), job.Job.Id);
        }
    }

    /// <summary>Whether a car is in its bay: not one that is to come, nor one that was moved to where nobody coats it.</summary>
    private bool IsIn(JobState job) => !job.IsExpectedAt(shop.Now) && queues.BayOf(job) is not null;

    /// <summary>Whether people told work on a car where it is now: then it is in its bay, whoever else is.</summary>
    private bool IsWorkedOn(JobState job) => queues.BayOf(job) is not null && Taps.Standing(job.Told).Any(t => t.Did != Did.Told);

    private QueuedCar Place(JobState job, ImmutableArray<BayFree> free)
    {
        bool isHere = !job.IsExpectedAt(shop.Now);
        ImmutableArray<StartEvidence> evidence = _scene.Unbegun(job);
        var car = new CarToPlan(
            job.Job.Id, bay, AirWorks.AirspaceOf(shop, bay) ?? bay, [.. evidence.Select(Surface)], isHere ? null : job.CameAt, job.Job.Visit?.PlannedAt, PromiseReport.PromisedAt(job))
        {
            IsColdUnknown = evidence.Any(e => e is { Arrival: { NowC: null }, ComesAt: not null }),
            ColdestArrivalC = evidence.Min(e => e.Arrival?.ColdestC) ?? shop.Plan.Habits.ColdestArrivalC,
            Means = evidence.FirstOrDefault()?.Means ?? ClimateMeans.None,
            IsAirMoist = evidence.Any(e => e.Air?.HumidityMaxPct > e.Laws.Sheet.Limits.HumidityMaxPct),
        };
        CoatsAhead ahead = new(shop, _present, job.Job), warm = new(shop, _warm, job.Job);
        HashSet<string> cold = [.. evidence.Where(e => e.IsStillCold).Select(e => e.Surface.Id)];
        ImmutableDictionary<string, SurfaceStory> stories = job.Stories.ToImmutableDictionary(s => s.Surface.Id, StringComparer.Ordinal);
        CarPlanner[] planners =
        [
            .. free.Select(f => new CarPlanner(car, f, queues.Works, shop.Plan.Pace, _hours, at => shop.Plan.Hours.AfterWork(at, shop.Plan.Finishing))
            {
                DryAt = layer => (cold.Contains(layer.Surface) ? warm : ahead).DryAt(stories[layer.Surface], layer.Layer, layer.DoneAt),
            }),
        ];
        CarSlot asked = planners[^1].At(planners[^1].Asked);
        if (asked.Start > _hours.Until)
        {
            return new QueuedCar(job, car, isHere, free, asked, null, [null, null, null]) { IsBeyondSight = true };
        }

        CarSlot? earliest = asked.IsPossible && car.AskedAt is null && planners[^1].Asked <= shop.Now + CarPlanner.Step ? asked : planners[^1].Earliest();
        CarSlot? late = asked.IsPossible ? asked : earliest;
        CarSlot? likely = free[1] == free[2] ? late : Chosen(planners[1]);
        CarSlot? early = free[0] == free[1] ? likely : Chosen(planners[0]);
        return new QueuedCar(job, car, isHere, free, asked, earliest, [early, likely, late]);

        static CarSlot? Chosen(CarPlanner planner) => planner.At(planner.Asked) is { IsPossible: true } asked ? asked : planner.Earliest();
    }

    private SurfaceToPlan Surface(StartEvidence evidence)
    {
        DateTimeOffset? dry = evidence.Arrival is not { } arrival || evidence is { Coming: null, ComesAt: null, IsStillCold: false } ? shop.Now : arrival.DryAt.Latest;
        int first = evidence.Next!.Layer;
        return new SurfaceToPlan(
            evidence.Surface.Id,
            evidence.Surface.Sections,
            dry,
            evidence.Times,
            [.. evidence.Times.Select((t, i) => RiskTimes.Of(shop.LawsOf(evidence.Surface, first + i), t.RecoatFrom, t.KeepDry?.Latest))])
        {
            First = first,
        };
    }
}
