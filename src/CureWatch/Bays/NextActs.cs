using System.Collections.Immutable;
using CureWatch.Curing;
using CureWatch.Planning;

namespace CureWatch.Bays;

/// <summary>What is to be done next on a car, in the present climate.</summary>
public static class NextActs
{
    /// <summary>What is next and what comes then.</summary>
    private const int Shown = 2;

    /// <summary>Finds what is to be done on a car.</summary>
    /// <param name="shop">The shop.</param>
    /// <param name="job">The job, one of the shop's.</param>
    /// <param name="at">The instant asked about, at most a little before or after the shop's present.</param>
    /// <param name="surface">The surface asked about; null for all.</param>
    /// <returns>The acts, the next first; none once the car has left.</returns>
    public static ImmutableArray<NextAct> Of(Shop shop, JobState job, DateTimeOffset at, string? surface = null) =>
        Of(shop, new Present(shop, shop.Now), job, at, surface);

    /// <summary>Says what is to be done on a car at the shop's present, the next first.</summary>
    internal static ImmutableArray<ToldAct> InWords(Shop shop, Present present, JobState job)
    {
        var words = new ActWords(shop.Plan.Hours.Zone, shop.Now);
        return [.. Of(shop, present, job, shop.Now, surface: null).Select((act, i) => Told(shop, job, act, words, isShown: i < Shown))];
    }

    /// <summary>The next act and "can I start?" are one answer: a coat is not next without what has to be done, or waited for, before it.</summary>
    private static ToldAct Told(Shop shop, JobState job, NextAct act, ActWords words, bool isShown)
    {
        ImmutableArray<StartReason> against = isShown ? Against(shop, job, act) : [];
        return new ToldAct(act, words.Of(act, against.FirstOrDefault()), shop.LawsOf(act.Surface, act.Layer).Sheet, against);
    }

    private static ImmutableArray<NextAct> Of(Shop shop, Present present, JobState job, DateTimeOffset at, string? surface)
    {
        if (job.LeftAt is not null)
        {
            return [];
        }

        SurfaceAtWork[] surfaces =
        [
            .. from story in job.Stories
               where surface is null || story.Surface.Id == surface
               select new SurfaceAtWork(
                   story,
                   [.. story.Living.Select(c => (c, present.WindowsOf(job.Job, story, c)))],
                   layer => SectionsPerPass(shop.Plan.Pace, present, job.Job, story, layer))
               {
                   WarmSections = CoolDowns.BySection(shop, present, job.Job, story),
               },
        ];
        return LevelFirst(shop, job, new Walk(surfaces, shop.Plan.Pace, at).Acts());
    }

    /// <summary>
    /// While a coat flashes, a section that cannot be begun stands behind it: nobody waits beside what is open. What merely was not told, such as a
    /// wipe-down, may have been done; whoever presses a button without a screen then means the section they went on to.
    /// </summary>
    private static ImmutableArray<NextAct> LevelFirst(Shop shop, JobState job, ImmutableArray<NextAct> acts)
    {
        int levels = acts.Skip(1).TakeWhile(a => a.Kind is ActKind.Level or ActKind.ReWet).Count();
        return levels > 0 && Against(shop, job, acts[0]).Any(r => r.ToldBy is null) ? [.. acts[1..(levels + 1)], acts[0], .. acts[(levels + 1)..]] : acts;
    }

    /// <summary>What speaks against an act; nothing does against one that is not a coat.</summary>
    private static ImmutableArray<StartReason> Against(Shop shop, JobState job, NextAct act) => act.Kind != ActKind.Apply ? [] :
        [.. StartReport.Of(shop, job.Job.Id, act.Surface.Id).Decision.Answers.SelectMany(a => a.Reasons).Where(r => r.Weight != StartWeight.Notes)];

    /// <summary>How many sections fit into a pass if the first is begun now; as a section there is none of, so that no real coat is taken for it.</summary>
    private static long SectionsPerPass(SectionPace pace, Present present, Job job, SurfaceStory story, int layer) => CoatTimes
        .Of(story.Surface, layer, pace, present.Now, c => present.WindowsOf(job, story, c with { Section = 0 })).SectionsPerPass(pace);
}
