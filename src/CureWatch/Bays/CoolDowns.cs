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
    internal static CoolDown? After(Shop shop, Present present, Job job, SurfaceStory story)
    {
        if (present.LampsOver(job, story) is not { Lit: [.., var last] } lamps
            || present.StaysOf(job, story)[^1].Point is not { } point
            || present.ExposureAt(point) is not { } exposure)
        {
            return null;
        }

        ProductSheet[] sheets = [.. shop.AllLawsOf(story.Surface).Select(l => l.Sheet)];
        return CoolDown.After(
            last,
            lamps.Own,
            Celsius.FromKelvins(exposure.AirKelvins).Degrees,
            sheets.Min(s => s.Limits.PanelMaxC),
            sheets.SelectMany(s => s.Lamp).Select(b => b.PanelMaxC).DefaultIfEmpty(HeatLimit.UnstatedC).Max(),
            PanelHeat.Of(story.Surface.Material, story.Surface.Over).TimeConstant,
            present.Now);
    }
}
