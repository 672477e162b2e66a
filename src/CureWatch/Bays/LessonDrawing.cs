using System.Collections.Immutable;
using CureWatch.Curing;
using CureWatch.Learning;
using CureWatch.TimeWindows;

namespace CureWatch.Bays;

/// <summary>Draws every lesson from the taps of one job.</summary>
/// <param name="shop">The shop.</param>
/// <param name="job">The job.</param>
/// <param name="told">Its taps that were told long enough ago, in the order they were told.</param>
/// <remarks>
/// A tap teaches once about a product, from the coat it is about that was wiped last: who says that all have flashed waited for that one. An act
/// that is still the same is not measured again, so that a lesson stays what it was while the climate behind it is let go of.
/// </remarks>
internal sealed class LessonDrawing(Shop shop, JobState job, ImmutableArray<Tap> told)
{
    private readonly Present _present = new(shop, shop.Now);
    private readonly ImmutableArray<Tap> _standing = Taps.Standing(told);
    private readonly ImmutableArray<SurfaceStory> _stories = [.. job.Job.Surfaces.Select(s => Taps.Story(s, told))];

    public IEnumerable<DrawnLesson> All() =>
        from tap in _standing
        where tap.Did is Did.Flashed or Did.Dried
        from taught in TaughtBy(tap)
            .GroupBy(t => t.Coat.Surface.SheetOf(t.Coat.Layer), (_, coats) => coats.MaxBy(c => c.From))
        select Lesson(tap, taught.Story, taught.Coat, taught.From);

    private IEnumerable<(SurfaceStory Story, Coat Coat, DateTimeOffset From)> TaughtBy(Tap tap)
    {
        foreach (SurfaceStory story in _stories.Where(s => IsAbout(tap, s)))
        {
            foreach (Coat coat in story.Coats)
            {
                if ((tap.Did == Did.Flashed ? FlashFrom(tap, coat) : DryingFrom(tap, story, coat)) is { } from)
                {
                    yield return (story, coat, from);
                }
            }
        }
    }

    /// <summary>The coat's last wipe, where the tap is the first that says it has flashed since.</summary>
    private DateTimeOffset? FlashFrom(Tap tap, Coat coat) =>
        shop.LawsOf(coat).Flash is not null
        && IsAbout(tap, coat) && coat.FlashedAt == tap.At && coat.LastWipeAt < tap.At && !(coat.LevelledAt < tap.At)
            ? coat.LastWipeAt
            : null;

    /// <summary>
    /// The start of the cure clock, where the tap is the first that says a bare coat is dry which no water ever touched. As for all that is told of
    /// water, a layer that nobody named is every layer.
    /// </summary>
    private DateTimeOffset? DryingFrom(Tap tap, SurfaceStory story, Coat coat)
    {
        CoatLaws laws = shop.LawsOf(coat);
        DateTimeOffset? start = laws.CureStartOf(coat);
        return laws.DriesByEvaporation
            && IsAbout(tap, coat)
            && coat.CoveredAt is null && coat.EndedAt is null
            && start < tap.At
            && !story.Wettings.Any(w => w.IsOn(coat.Section) && w.WettedAt >= coat.StartedAt && w.WettedAt <= tap.At)
            && !_standing.Any(t => t.Did == Did.Dried && t.At > start && t.At < tap.At && IsAbout(t, story) && IsAbout(t, coat))
                ? start
                : null;
    }

    private DrawnLesson Lesson(Tap tap, SurfaceStory story, Coat coat, DateTimeOffset from)
    {
        (string product, int revision) = coat.Surface.SheetOf(coat.Layer);
        TaughtStage stage = tap.Did == Did.Flashed ? TaughtStage.Flash : TaughtStage.KeepDry;
        Stay stay = _present.StaysOf(job.Job, story).Last(s => s.From <= tap.At);
        var seen = new Lesson(job.Job.Id, coat.Surface.Id, coat.Layer, coat.Section, stay.Bay ?? "", from, tap.At, LnRatio: null);
        Lesson? before = shop.Learning.GetValueOrDefault((product, revision))?.Of(stage).Lessons.FirstOrDefault(l => l.IsOfTheSameAct(seen));
        return new DrawnLesson(product, revision, stage, before ?? seen with { LnRatio = LnRatio(stage, stay, story, coat, seen) });
    }

    /// <summary>Null where the car stood somewhere else, or nobody measured.</summary>
    private double? LnRatio(TaughtStage stage, Stay stay, SurfaceStory story, Coat coat, Lesson seen)
    {
        CoatLaws laws = shop.LawsOf(coat);
        TimedStage timed = stage == TaughtStage.Flash ? laws.Flash! : laws.KeepDry!;
        return stay.Point is null || stay.From > seen.From
            ? null
            : Witness.LnRatio(_present.ClockOf(job.Job, story, coat, timed).Record, seen.From, seen.At, timed.Milestone.ReferenceHours);
    }

    private static bool IsAbout(Tap tap, SurfaceStory story) => tap.Surface is null || tap.Surface == story.Surface.Id;

    private static bool IsAbout(Tap tap, Coat coat) =>
        (tap.Section ?? coat.Section) == coat.Section && (tap.Layer ?? coat.Layer) == coat.Layer;
}
