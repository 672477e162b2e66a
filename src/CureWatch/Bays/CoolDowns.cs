using System.Collections.Immutable;
using CureWatch.Curing;
using CureWatch.Handover;
using CureWatch.Panels;
using CureWatch.Products;
using CureWatch.Units;

namespace CureWatch.Bays;

/// <summary>Whether surfaces have cooled down from their lamps, as far as the next act on them is concerned: levelling, another coat, a start.</summary>
public static class CoolDowns
{
    /// <summary>Whether a surface is still warm from its last lamp.</summary>
    /// <param name="shop">The shop.</param>
    /// <param name="present">The shop's present.</param>
    /// <param name="job">The surface's job.</param>
    /// <param name="story">Its story.</param>
    /// <returns>How warm, and from when on it is cool; null where there was no lamp, it has cooled, or nobody measures the air around it.</returns>
    public static CoolDown? Of(Shop shop, Present present, Job job, SurfaceStory story) =>
        After(shop, present, job, story) is { HasCooled: false } warm ? warm : null;

    /// <summary>How a surface cools down from its last lamp, or has; null where there was no lamp, or nobody measures the air around it.</summary>
    internal static CoolDown? After(Shop shop, Present present, Job job, SurfaceStory story) => After(shop, present, job, story, lamps => (lamps.Lit, lamps.Own));

    /// <summary>The same of some of its sections: that of the one which is worked on last.</summary>
    internal static CoolDown? After(Shop shop, Present present, Job job, SurfaceStory story, ImmutableArray<int> sections) => !story.HasLampOverAPart
        ? After(shop, present, job, story)
        : sections.Select(section => After(shop, present, job, story, lamps => lamps.OverSection(section))).OfType<CoolDown>()
            .OrderBy(c => c.HasCooled).ThenByDescending(c => c.CoolFrom ?? DateTimeOffset.MaxValue).FirstOrDefault();

    /// <summary>Whether each section is still warm from its last lamp.</summary>
    internal static ImmutableArray<CoolDown?> BySection(Shop shop, Present present, Job job, SurfaceStory story) => story.Lamps.IsEmpty
        ? []
        : [.. Enumerable.Range(1, story.Surface.Sections).Select(s => After(shop, present, job, story, [s]) is { HasCooled: false } warm ? warm : null)];

    private static CoolDown? After(
        Shop shop, Present present, Job job, SurfaceStory story, Func<UnderLamp, (ImmutableArray<Spell> Lit, ImmutableArray<OwnReading> Own)> of)
    {
        if (present.LampsOver(job, story) is not { } lamps || of(lamps) is not ([.., var last], var own)
            || present.StaysOf(job, story)[^1].Point is not { } point
            || present.ExposureAt(point) is not { } exposure)
        {
            return null;
        }

        ProductSheet[] sheets = [.. shop.AllLawsOf(story.Surface).Select(l => l.Sheet)];
        return CoolDown.After(
            last,
            own,
            Celsius.FromKelvins(exposure.AirKelvins).Degrees,
            sheets.Min(s => s.Limits.PanelMaxC),
            sheets.SelectMany(s => s.Lamp).Select(b => b.PanelMaxC).DefaultIfEmpty(HeatLimit.UnstatedC).Max(),
            PanelHeat.Of(story.Surface.Material, story.Surface.Over).TimeConstant,
            present.Now);
    }
}
