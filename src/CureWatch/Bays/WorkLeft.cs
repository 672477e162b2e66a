using System.Collections.Immutable;
using CureWatch.Curing;
using CureWatch.Planning;
using CureWatch.TimeWindows;

namespace CureWatch.Bays;

/// <summary>The work left on a car, if it is begun at an instant that is still to come, and what its coats would do in the climate from then on.</summary>
/// <param name="Plan">
/// The work in the order of the surfaces, layer by layer, each in one of the shop's days; what is left of a layer that is begun is done before people go. Each keep-dry is that of a
/// coat levelled when its layer is done. Where a layer goes on in parts that take it at other times, all of it is reckoned with the last of them, if it is begun before the first have closed.
/// </param>
/// <param name="Unfit">The first layer that would come too late for the one below it; null where none would.</param>
internal sealed record WorkLeft(WorkPlan Plan, LayerWork? Unfit)
{
    /// <summary>When the last section is levelled.</summary>
    public DateTimeOffset DoneAt => Plan.DoneAt!.Value;

    /// <summary>When a layer may get wet, or is levelled where its sheet does not say.</summary>
    public TimeBounds ReadyOf(string surface, int layer)
    {
        LayerWork work = Plan.Layers.First(l => l.Surface == surface && l.Layer == layer);
        return work.DryAt ?? TimeBounds.Known(work.DoneAt);
    }

    /// <summary>The work left on a car.</summary>
    /// <param name="shop">The shop.</param>
    /// <param name="present">The shop's present, or what is supposed of it.</param>
    /// <param name="job">The job.</param>
    /// <param name="from">When it is begun, not before the present.</param>
    /// <param name="ahead">Looks at coats that are not begun.</param>
    /// <returns>The work; null where nothing is left, or nobody measures where it would be done.</returns>
    public static WorkLeft? Of(Shop shop, Present present, JobState job, DateTimeOffset from, CoatsAhead ahead)
    {
        SurfaceWork[] left = [.. job.Stories.Select(s => Of(present, job.Job, s, from, ahead, shop.Plan.Pace)).OfType<SurfaceWork>()];
        if (left.Length == 0)
        {
            return null;
        }

        WorkPlan plan = WorkPlan.Of([.. left.OrderBy(w => w.From)], shop.Plan.Pace, from, BayQueues.HoursOf(shop).Place);
        ImmutableDictionary<string, SurfaceStory> stories = job.Stories.ToImmutableDictionary(s => s.Surface.Id, StringComparer.Ordinal);
        plan = new WorkPlan([.. plan.Layers.Select(l => l with { DryAt = ahead.DryAt(stories[l.Surface], l.Layer, l.DoneAt) })]);
        return new WorkLeft(plan, plan.Layers.FirstOrDefault(l => l.IsTooLate));
    }

    private static SurfaceWork? Of(Present present, Job job, SurfaceStory story, DateTimeOffset from, CoatsAhead ahead, SectionPace pace)
    {
        foreach (int layer in Enumerable.Range(1, story.Surface.Layers))
        {
            if (SectionsTogether.Missing(story, layer, c => present.WindowsOf(job, story, c)) is { IsEmpty: false } below)
            {
                ImmutableArray<int> first = SectionsTogether.Of(below, present.Now);
                DateTimeOffset? takesFrom = below.Max(b => b.Below?.Recoat?.OpensAt.Latest);
                DateTimeOffset? firstBy = ClosingOf(below.Where(b => first.Contains(b.Section))), lastBy = ClosingOf(below.Where(b => !first.Contains(b.Section)));
                DateTimeOffset? takesBy = first.Length == below.Length || firstBy < from ? firstBy : lastBy;
                ImmutableArray<CoatTimes> times =
                    [.. Enumerable.Range(layer, story.Surface.Layers + 1 - layer).Select(l => ahead.TimesOf(story, l, pace, from))];
                return new SurfaceWork(
                    story.Surface.Id, layer, story.Surface.Layers, below.Length, story.Surface.Sections, takesFrom > from ? takesFrom.Value : from, times)
                {
                    By = takesBy,
                    BegunAt = SectionsTogether.BegunAt(story, layer),
                };
            }
        }

        return null;
    }

    private static DateTimeOffset? ClosingOf(IEnumerable<(int Section, BelowCoat? Below)> below) =>
        below.Min(b => b.Below is { IsFoundClear: false } coat ? coat.Recoat?.ClosesAt?.Earliest : null);
}
