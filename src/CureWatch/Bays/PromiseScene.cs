using System.Collections.Immutable;
using CureWatch.Curing;
using CureWatch.Handover;
using CureWatch.TimeWindows;

namespace CureWatch.Bays;

/// <summary>Gathers what a promise follows from: every coat on a car, and every one still to go on.</summary>
/// <remarks>
/// What is left of a car that is begun goes on as soon as the shop is open. A car that is not begun goes by its turn in the line of its bay, as the day plan has it.
/// </remarks>
internal sealed class PromiseScene
{
    private readonly Shop _shop;
    private readonly Present _present;
    private readonly JobState _job;

    private PromiseScene(Shop shop, Present present, JobState job, WorkLeft? left, IEnumerable<AwaitedCoat>? queued = null)
    {
        (_shop, _present, _job, Left) = (shop, present, job, left);
        Coats = [.. job.Stories.SelectMany(OnIt), .. queued ?? StillToGoOn()];
    }

    /// <summary>The work that is left; null where none is, none can be timed, or no start fits.</summary>
    public WorkLeft? Left { get; }

    /// <summary>The coats.</summary>
    public ImmutableArray<AwaitedCoat> Coats { get; }

    /// <summary>Its turn in the line of its bay; null where it waits for none, or is not planned yet.</summary>
    public QueuedCar? Turn { get; private init; }

    /// <summary>When the last keep-dry is over, coats still to go on with it; null where there is nothing on the car and nothing planned.</summary>
    public TimeBounds? ReadyAt => PromiseOutlook.ReadyOf(Coats);

    /// <summary>A car as it goes on.</summary>
    /// <param name="shop">The shop.</param>
    /// <param name="present">The shop's present, or what is supposed of it.</param>
    /// <param name="job">The job.</param>
    /// <param name="begun">When somebody would like what is left to be begun; its bay has to be free for that. As soon as it can be, or is planned, where null.</param>
    /// <param name="queues">The lines of the bays, where somebody has them already.</param>
    public static PromiseScene Of(Shop shop, Present present, JobState job, DateTimeOffset? begun = null, BayQueues? queues = null)
    {
        QueuedCar? turn = BayQueues.IsBegun(job) ? null : queues is null ? BayQueues.TurnOf(shop, present.Supposed, job) : queues.Of(job);
        return turn is null or { IsBeyondSight: true } ? BegunAt(shop, present, job, begun ?? shop.Plan.Hours.AfterWork(job.WorkFrom(shop.Now), TimeSpan.Zero) ?? shop.Now)
            : begun is { } wished && turn.Free[^1].IsKnown ? BegunBehind(shop, present, job, wished, turn)
            : new PromiseScene(shop, present, job, turn.Chosen?.Plan is { } plan ? new WorkLeft(plan, plan.Layers.FirstOrDefault(l => l.IsTooLate)) : null, Queued(job, turn.ReadyOf, turn.IsUnmeasured))
            {
                Turn = turn,
            };
    }

    /// <summary>A car whose work that is left is begun at an instant, whatever else is in its bay.</summary>
    public static PromiseScene BegunAt(Shop shop, Present present, JobState job, DateTimeOffset from, CoatsAhead? ahead = null) =>
        new(shop, present, job, WorkLeft.Of(shop, present, job, from, ahead ?? new CoatsAhead(shop, present, job.Job)));

    /// <summary>Begun when somebody would like to, or as soon as the car is here, its panels are dry and the bay is free, by each end that those before it may have.</summary>
    private static PromiseScene BegunBehind(Shop shop, Present present, JobState job, DateTimeOffset wished, QueuedCar turn)
    {
        wished = turn.ReadyFrom(shop.Now) is var ready && ready > wished ? ready : wished;
        var warm = new Present(shop, shop.Now) { Supposed = present.Supposed with { AreColdCarsWarm = true } };
        var ahead = new CoatsAhead(shop, warm, job.Job);
        WorkLeft?[] left = [.. turn.Free.Select(f => WorkLeft.Of(shop, present, job, f.At > wished ? f.At.Value : wished, ahead))];
        return new PromiseScene(shop, present, job, left[^1], Queued(job, (surface, layer) =>
        {
            TimeBounds[] by = [.. left.Select(l => l!.ReadyOf(surface, layer))];
            return new TimeBounds(by[0].Earliest, by[1].Likely, by[2].Latest);
        }, job.Stories.Any(s => IsUnmeasured(present, job, s))))
        {
            Turn = turn,
        };
    }

    private static IEnumerable<AwaitedCoat> Queued(JobState job, Func<string, int, TimeBounds> readyOf, bool isUnmeasured) =>
        from story in job.Stories
        from layer in story.Missing().Select(m => m.Layer).Distinct()
        select new AwaitedCoat(story.Surface, layer, null, Awaits.Application, readyOf(story.Surface.Id, layer)) { IsUnmeasured = isUnmeasured };

    /// <summary>Whether the car is ready when its customer was told.</summary>
    /// <param name="holds">Everything that holds it.</param>
    /// <param name="promisedAt">The pick-up time the customer was told last; null where none was.</param>
    /// <param name="isJudgedAnew">Whether what came of a promise before counts no more: something is told of the time before its time.</param>
    public PromiseOutlook Outlook(IEnumerable<Hold> holds, DateTimeOffset? promisedAt, bool isJudgedAnew = false) => PromiseOutlook.Of(
        Coats,
        holds,
        promisedAt,
        _shop.Plan.Hours,
        _shop.Plan.Finishing,
        _shop.Now,
        isJudgedAnew || _job.Promise.For != promisedAt ? null : _job.Promise.CameTo);

    /// <summary>What a coat's end rests on; null where it is not on yet.</summary>
    public PromiseBasis BasisOf(AwaitedCoat coat, DateTimeOffset? collectFrom)
    {
        SurfaceStory story = _job.Stories.First(s => s.Surface.Id == coat.Surface.Id);
        Coat? on = story.Living.FirstOrDefault(c => c.Layer == coat.Layer && c.Section == coat.Section);
        CoatWindows? windows = on is null ? null : _present.WindowsOf(_job.Job, story, on);
        MeanClimate? mean = windows?.Laws.KeepDry is { } stage
            ? _present.ClockOf(_job.Job, story, on!, stage).MeanUntil(windows.CureStart, stage.Milestone)
            : null;
        return new PromiseBasis(
            _shop.Now,
            collectFrom,
            coat.Name,
            windows?.CureStart.Likely ?? Left?.Plan.Layers.LastOrDefault(l => l.Surface == coat.Surface.Id && l.Layer == coat.Layer)?.DoneAt,
            mean is { } climate ? PanelClimate.Of(windows!.Laws.KeepDry!.Law, climate) : null,
            story.Wettings.LastOrDefault(w => on is null || w.IsOn(on.Section))?.WettedAt,
            _present.StaysOf(_job.Job, story)[^1].Point is not { } point || BayAir.Measured(_shop.Bays[point.Bay], point.Air, _shop.Now) is null);
    }

    private IEnumerable<AwaitedCoat> OnIt(SurfaceStory story)
    {
        // Whoever sees water dries it: until then nobody can tell more than what it would be if that were done now.
        SurfaceStory dried = story with { Wettings = [.. story.Wettings.Select(w => w with { DriedAt = w.DriedAt ?? _shop.Now })] };
        foreach (Coat coat in story.Living)
        {
            CoatWindows windows = _present.WindowsOf(_job.Job, dried, coat);
            if (windows.ReadyAt is { } readyAt)
            {
                readyAt = _present.Supposed.LampsUntil.TryGetValue(story.Surface.Id, out DateTimeOffset off) ? readyAt.OrLater(TimeBounds.Known(off)) : readyAt;
                Awaits waits = windows.AwaitsLevelling ? Awaits.Levelling
                    : readyAt.Latest <= _shop.Now ? Awaits.Nothing
                    : windows.WettedInKeepDry.Any(w => story.Wettings.Any(o => o.IsOn(coat.Section) && o.WettedAt == w.WettedAt && o.DriedAt is null)) ? Awaits.Drying
                    : Awaits.KeepDry;
                yield return new AwaitedCoat(story.Surface, coat.Layer, coat.Section, waits, readyAt) { IsUnmeasured = waits != Awaits.Nothing && IsUnmeasured(_present, _job, story) };
            }
        }
    }

    private IEnumerable<AwaitedCoat> StillToGoOn() =>
        from layer in Left?.Plan.Layers ?? []
        select new AwaitedCoat(
            _job.Job.Surfaces.First(s => s.Id == layer.Surface), layer.Layer, null, Awaits.Application, Left!.ReadyOf(layer.Surface, layer.Layer))
        {
            IsUnmeasured = IsUnmeasured(_present, _job, _job.Stories.First(s => s.Surface.Id == layer.Surface)),
        };

    /// <summary>Whether the air a surface is in was never measured; of one that is in no bay that is said otherwise.</summary>
    private static bool IsUnmeasured(Present present, JobState job, SurfaceStory story) =>
        present.StaysOf(job.Job, story)[^1].Point is { } point && present.ExposureAt(point) is null;
}
