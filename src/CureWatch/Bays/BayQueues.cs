using System.Collections.Immutable;
using CureWatch.Curing;
using CureWatch.Handover;
using CureWatch.Planning;
using CureWatch.TimeWindows;

namespace CureWatch.Bays;

/// <summary>The cars of each bay in the order they are worked: when each can be begun, and when it leaves the bay to the next.</summary>
/// <remarks>
/// One car a bay (choice), but what people work on is in its bay, whatever else is. A car whose coating is begun stays as it is; after it come the others:
/// those people work on, those that are here, those that are expected, each when it was asked for where that fits, else at the earliest start that does. All of
/// it three times over, by the earliest, the likely and the latest end of each car: what slows one coat slows those behind it. The day plan goes by the latest.
/// </remarks>
internal sealed class BayQueues
{
    private static readonly Func<TimeBounds, DateTimeOffset?>[] Paces = [b => b.Earliest, b => b.Likely, b => b.Latest];

    private readonly Shop _shop;
    private readonly Supposed _supposed;
    private readonly Present _present, _warm;
    private readonly Lazy<StartScene> _scene;
    private readonly Lazy<ILookup<string, JobState>> _jobs;
    private readonly Dictionary<string, BayLine> _lines = new(StringComparer.Ordinal);

    public BayQueues(Shop shop, Supposed? supposed = null)
    {
        _shop = shop;
        _supposed = supposed ?? Supposed.Nothing;
        _present = new Present(shop, shop.Now) { Supposed = _supposed };
        _warm = new Present(shop, shop.Now) { Supposed = _supposed with { AreColdCarsWarm = true } };
        _scene = new Lazy<StartScene>(() => new StartScene(shop, _supposed));
        _jobs = new Lazy<ILookup<string, JobState>>(() => shop.JobsInOrder.Where(j => j.LeftAt is null).ToLookup(j => BayOf(j) ?? j.Job.Bay, StringComparer.Ordinal));
        Hours = HoursOf(shop);
        Works = [.. AirWorks.Of(shop).Concat(AirWorks.OfCarsToCome(shop)).Where(w => w.From < Hours.Until)];
    }

    /// <summary>The days that are looked at.</summary>
    public ShopHours Hours { get; }

    /// <summary>What goes on in the airs, and is planned there.</summary>
    public ImmutableArray<AirWork> Works { get; }

    /// <summary>Whether a car's work is begun, or nothing of it is left: it waits for nobody.</summary>
    public static bool IsBegun(JobState job) => job.Stories.Any(s => s.Living.Any()) || !job.Stories.SelectMany(Missing).Any();

    /// <summary>The layers of a surface that are still to go on.</summary>
    public static IEnumerable<int> Missing(SurfaceStory story) =>
        Enumerable.Range(1, story.Surface.Layers).Where(l => Enumerable.Range(1, story.Surface.Sections).Any(s => story.IsMissing(l, s)));

    /// <summary>The line of a bay.</summary>
    public BayLine Of(string bay)
    {
        if (!_lines.TryGetValue(bay, out BayLine? line))
        {
            line = LineUp(bay);
            _lines.Add(bay, line);
        }

        return line;
    }

    /// <summary>A car whose work is not begun, in its line; null where it has none, begun or gone.</summary>
    public QueuedCar? Of(JobState job) => Of(BayOf(job) ?? job.Job.Bay).Waiting.FirstOrDefault(q => q.Job.Job.Id == job.Job.Id);

    /// <summary>When a car that is begun leaves its bay: finished, inside opening hours; null where nobody can tell while water is on it, or its end is not known.</summary>
    public TimeBounds LeavesAt(TimeBounds? readyAt) => new(LeavesAt(readyAt?.Earliest), LeavesAt(readyAt?.Likely), LeavesAt(readyAt?.Latest));

    /// <summary>When a begun car's last keep-dry ends; null where only people can bring that about.</summary>
    public TimeBounds? ReadyAt(JobState job, PromiseScene scene) =>
        JobReport.RulingOn(_shop, _present, job).ReadyAt is null && job.Stories.Any(s => s.Living.Any()) ? null : scene.ReadyAt ?? TimeBounds.Known(_shop.Now);

    /// <summary>The bay a car is in, by its first surface that is in one; null where it is in none.</summary>
    public string? BayOf(JobState job) => job.Stories.Select(s => _present.StaysOf(job.Job, s)[^1].Bay).OfType<string>().FirstOrDefault();

    private BayLine LineUp(string bay)
    {
        JobState[] jobs = [.. _jobs.Value[bay]];
        BayFree[] free = [BayFree.Now, BayFree.Now, BayFree.Now];
        foreach (JobState begun in jobs.Where(j => IsBegun(j) && BayOf(j) is not null))
        {
            Leave(free, begun, LeavesAt(ReadyAt(begun, PromiseScene.Of(_shop, _present, begun))));
        }

        BayFree fromHere = free[^1];
        var waiting = ImmutableArray.CreateBuilder<QueuedCar>();
        foreach (JobState next in jobs.Where(j => !IsBegun(j))
            .OrderBy(j => !IsWorkedOn(j)).ThenBy(j => j.IsExpectedAt(_shop.Now)).ThenBy(j => j.Job.Visit?.PlannedAt ?? j.CameAt).ThenBy(j => j.Number))
        {
            QueuedCar car = Place(next, bay, IsWorkedOn(next) ? [BayFree.Now, BayFree.Now, BayFree.Now] : [.. free]);
            waiting.Add(car);
            if (!car.IsBeyondSight && (car.IsHere || car.Chosen is not null))
            {
                Leave(free, next, LeavesAt(car.ReadyAt));
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

    /// <summary>Whether people told work on a car where it is now: then it is in its bay, whoever else is.</summary>
    private bool IsWorkedOn(JobState job) => BayOf(job) is not null && Taps.Standing(job.Told).Any(t => t.Did != Did.Told);

    private QueuedCar Place(JobState job, string bay, ImmutableArray<BayFree> free)
    {
        bool isHere = !job.IsExpectedAt(_shop.Now);
        ImmutableArray<StartEvidence> evidence = _scene.Value.Unbegun(job);
        var car = new CarToPlan(
            job.Job.Id, bay, AirWorks.AirspaceOf(_shop, bay) ?? bay, [.. evidence.Select(Surface)], isHere ? null : job.CameAt, job.Job.Visit?.PlannedAt, PromiseReport.PromisedAt(job))
        {
            IsColdUnknown = evidence.Any(e => e is { Arrival: { NowC: null }, ComesAt: not null }),
            ColdestArrivalC = _shop.Plan.Habits.ColdestArrivalC,
        };
        CoatsAhead ahead = new(_shop, _present, job.Job), warm = new(_shop, _warm, job.Job);
        HashSet<string> cold = [.. evidence.Where(e => e.IsStillCold).Select(e => e.Surface.Id)];
        ImmutableDictionary<string, SurfaceStory> stories = job.Stories.ToImmutableDictionary(s => s.Surface.Id, StringComparer.Ordinal);
        CarPlanner[] planners =
        [
            .. free.Select(f => new CarPlanner(car, f, Works, _shop.Plan.Pace, Hours, at => _shop.Plan.Hours.AfterWork(at, _shop.Plan.Finishing))
            {
                DryAt = layer => (cold.Contains(layer.Surface) ? warm : ahead).DryAt(stories[layer.Surface], layer.Layer, layer.DoneAt),
            }),
        ];
        CarSlot asked = planners[^1].At(planners[^1].Asked);
        CarSlot? earliest = asked.IsPossible && car.AskedAt is null && planners[^1].Asked <= _shop.Now + CarPlanner.Step ? asked : planners[^1].Earliest();
        CarSlot? late = asked.IsPossible ? asked : earliest;
        CarSlot? likely = free[1] == free[2] ? late : Chosen(planners[1]);
        CarSlot? early = free[0] == free[1] ? likely : Chosen(planners[0]);
        return new QueuedCar(job, car, isHere, free, asked, earliest, [early, likely, late])
        {
            IsBeyondSight = asked.Start > Hours.Until,
        };

        static CarSlot? Chosen(CarPlanner planner) => planner.At(planner.Asked) is { IsPossible: true } asked ? asked : planner.Earliest();
    }

    private SurfaceToPlan Surface(StartEvidence evidence)
    {
        DateTimeOffset? dry = evidence.Arrival is not { } arrival || evidence is { Panel.IsMeasured: true, ComesAt: null, IsStillCold: false } ? _shop.Now : arrival.DryAt.Latest;
        int first = evidence.Next!.Layer;
        return new SurfaceToPlan(
            evidence.Surface.Id,
            evidence.Surface.Sections,
            dry,
            evidence.Times,
            [.. evidence.Times.Select((t, i) => RiskTimes.Of(_shop.LawsOf(evidence.Surface, first + i), t.RecoatFrom, t.KeepDry?.Latest))])
        {
            First = first,
        };
    }

    private DateTimeOffset? LeavesAt(DateTimeOffset? readyAt)
    {
        DateTimeOffset? leaves = readyAt is { } at ? _shop.Plan.Hours.AfterWork(at, _shop.Plan.Finishing) : null;
        return leaves < _shop.Now ? _shop.Plan.Hours.AfterWork(_shop.Now, TimeSpan.Zero) : leaves;
    }

    private static ShopHours HoursOf(Shop shop)
    {
        var days = ImmutableArray.CreateBuilder<ShopDay>();
        OpenDay? day = shop.Plan.Hours.DayAt(shop.Now);
        while (day is not null && (days.Count == 0 || days[^1].Opens <= shop.Now + DayPlan.Sight))
        {
            days.Add(new ShopDay(day.Opens, day.LocksUp));
            day = day.LocksUp is { } lockUp ? shop.Plan.Hours.DayAt(lockUp) : null;
        }

        return new ShopHours(shop.Now, shop.Now + DayPlan.Sight, shop.Plan.Hours.Zone, days.ToImmutable());
    }
}
