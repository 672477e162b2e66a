using System.Collections.Immutable;
using CureWatch.Bays;
using CureWatch.Curing;
using CureWatch.Planning;

namespace CureWatch.Reports;

/// <summary>How the next layers of a car would be worked in passes, by one person or two, in the present climate and with what was learnt.</summary>
/// <param name="Job">The job's id.</param>
/// <param name="At">The instant.</param>
/// <param name="Pace">How fast a section is worked, and by how many.</param>
/// <param name="Surfaces">Every surface with something left to go on, in the order to go about it.</param>
/// <param name="Passes">
/// Its sections, pass by pass across surfaces that may be begun at the same time; a pass ends before the first section that would be levelled too late.
/// </param>
public sealed record PassReport(
    string Job, DateTimeOffset At, SectionPace Pace, ImmutableArray<SurfacePass> Surfaces, ImmutableArray<ImmutableArray<PassSection>> Passes)
{
    /// <summary>Plans the passes of a car.</summary>
    /// <param name="shop">The shop.</param>
    /// <param name="start">The answer whether it can be started.</param>
    /// <param name="people">One or two; null for as many as the shop's habits say.</param>
    /// <returns>The passes.</returns>
    public static PassReport Of(Shop shop, StartReport start, int? people = null)
    {
        SectionPace pace = people is { } hands ? shop.Plan.Pace.With(hands) : shop.Plan.Pace;
        StartAnswer[] left = [.. start.Decision.InOrder.Where(a => !a.Evidence.Times.IsEmpty)];
        return new PassReport(
            start.Job ?? "",
            shop.Now,
            pace,
            [.. left.Select(a => a.Evidence).Select(e => new SurfacePass(e.Surface, e.Next!.Layer, e.Times[0].HasToBeLevelled, e.Times[0].Flash, PlanOf(e.Times[0], pace)))],
            [.. left.GroupBy(a => (a.Verdict, a.From?.Latest)).SelectMany(together => PassesOf(together.Select(a => a.Evidence), pace))]);
    }

    private static PassPlan? PlanOf(CoatTimes times, SectionPace pace) => times is { HasToBeLevelled: true, Flash: { } flash } ? PassPlan.For(pace, flash) : null;

    /// <summary>Only what has to be levelled is worked in passes; a section that no pass keeps in time is one by itself, to be judged by eye.</summary>
    private static IEnumerable<ImmutableArray<PassSection>> PassesOf(IEnumerable<StartEvidence> left, SectionPace pace)
    {
        (PassSection Section, FlashWindow? Flash)[] sections = [.. left.Where(e => e.Times[0].HasToBeLevelled).SelectMany(e => SectionsOf(e, pace))];
        for (int from = 0; from < sections.Length;)
        {
            FlashWindow[] timed = [.. sections.Skip(from).TakeWhile(s => s.Section.IsTimed).Select(s => s.Flash!)];
            int length = Math.Max(1, MixedPass.Sections(pace, timed));
            yield return [.. sections.Skip(from).Take(length).Select(s => s.Section)];
            from += length;
        }
    }

    private static IEnumerable<(PassSection, FlashWindow?)> SectionsOf(StartEvidence surface, SectionPace pace)
    {
        FlashWindow? flash = surface.Times[0].Flash;
        bool isTimed = flash is not null && PassPlan.For(pace, flash) is not PassPlan.Unworkable;
        return surface.Next!.Sections.Select(s => (new PassSection(surface.Surface.Id, surface.Next.Layer, s, isTimed), flash));
    }
}

/// <summary>A surface to be worked in passes.</summary>
/// <param name="Surface">The surface.</param>
/// <param name="Layer">The layer that goes on next.</param>
/// <param name="HasToBeLevelled">Whether there is anything to level.</param>
/// <param name="Flash">When a section may be levelled, from its last wipe; null where there is nothing to level, or no time can be counted on.</param>
/// <param name="Plan">How many of its sections make a pass; null likewise.</param>
public sealed record SurfacePass(Surface Surface, int Layer, bool HasToBeLevelled, FlashWindow? Flash, PassPlan? Plan);

/// <summary>A section in a pass.</summary>
/// <param name="Surface">The surface.</param>
/// <param name="Layer">The layer.</param>
/// <param name="Section">The section, from 1.</param>
/// <param name="IsTimed">False where levelling cannot be timed in this climate: smaller sections, judge by eye.</param>
public sealed record PassSection(string Surface, int Layer, int Section, bool IsTimed);
