using System.Collections.Immutable;
using CureWatch.Curing;
using CureWatch.Handover;
using CureWatch.TimeWindows;

namespace CureWatch.Bays;

/// <summary>Gathers what a promise follows from: every coat on a car, and every one still to go on, begun as soon as the shop is open and the car is here, or when it is planned.</summary>
internal sealed class PromiseScene
{
    private readonly Shop _shop;
    private readonly Present _present;
    private readonly JobState _job;

    /// <param name="shop">The shop.</param>
    /// <param name="present">The shop's present, or what is supposed of it.</param>
    /// <param name="job">The job.</param>
    /// <param name="begun">When the work that is left is begun; as soon as it can be, or is planned, where null.</param>
    /// <param name="ahead">Looks at coats that are not begun; one of its own where null.</param>
    public PromiseScene(Shop shop, Present present, JobState job, DateTimeOffset? begun = null, CoatsAhead? ahead = null)
    {
        (_shop, _present, _job) = (shop, present, job);
        DateTimeOffset from = begun ?? shop.Plan.Hours.AfterWork(job.WorkFrom(shop.Now), TimeSpan.Zero) ?? shop.Now;
        Left = WorkLeft.Of(shop, present, job, from, ahead ?? new CoatsAhead(shop, present, job.Job));
        Coats = [.. job.Stories.SelectMany(OnIt), .. StillToGoOn()];
    }

    /// <summary>The work that is left; null where none is, or none can be timed.</summary>
    public WorkLeft? Left { get; }

    /// <summary>The coats.</summary>
    public ImmutableArray<AwaitedCoat> Coats { get; }

    /// <summary>Whether the car is ready when its customer was told.</summary>
    /// <param name="holds">Everything that holds it.</param>
    /// <param name="promisedAt">The pick-up time the customer was told last; null where none was.</param>
    public PromiseOutlook Outlook(IEnumerable<Hold> holds, DateTimeOffset? promisedAt) =>
        PromiseOutlook.Of(Coats, holds, promisedAt, _shop.Plan.Hours, _shop.Plan.Finishing);

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
            story.Wettings.IsEmpty ? null : story.Wettings[^1].WettedAt,
            _present.StaysOf(_job.Job, story)[^1].Point is not { } point || BayAir.Of(_shop.Bays[point.Bay], point.Air, _shop.Now) is null);
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
                Awaits waits = windows.LevelOff is not null && coat.LevelledAt is null ? Awaits.Levelling
                    : readyAt.Latest <= _shop.Now ? Awaits.Nothing
                    : windows.WettedInKeepDry.Any(w => story.Wettings.Any(o => o.WettedAt == w.WettedAt && o.DriedAt is null)) ? Awaits.Drying
                    : Awaits.KeepDry;
                yield return new AwaitedCoat(story.Surface, coat.Layer, coat.Section, waits, readyAt);
            }
        }
    }

    private IEnumerable<AwaitedCoat> StillToGoOn() =>
        from layer in Left?.Plan.Layers ?? []
        select new AwaitedCoat(
            _job.Job.Surfaces.First(s => s.Id == layer.Surface), layer.Layer, null, Awaits.Application, layer.DryAt ?? TimeBounds.Known(layer.DoneAt));
}
