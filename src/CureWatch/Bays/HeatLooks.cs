using System.Collections.Immutable;
using CureWatch.Curing;
using CureWatch.Readings;
using CureWatch.Warnings;

namespace CureWatch.Bays;

/// <summary>Warns ahead of the heat a surface can take, from its own readings, while somebody can still switch a lamp off.</summary>
/// <remarks>
/// One episode is one warning: it stands until the surface is read well below its limit. Whether anybody told of a lamp does not matter: what is
/// heated is heated.
/// </remarks>
internal static class HeatLooks
{
    /// <summary>Readings older than this say nothing about how fast a surface is heated now. Source (choice).</summary>
    private static readonly TimeSpan Recent = TimeSpan.FromMinutes(30);

    /// <summary>Decides what a believed reading means for the surface its probe is fixed to.</summary>
    public static IEnumerable<ShopEvent> Decide(Shop shop, RawReading raw)
    {
        BayState bay = shop.Bays[raw.Bay];
        int index = bay.IndexOf(raw.Probe);
        return raw.PanelC is null || !bay.Logs[index].IsLook
            ? []
            : from id in bay.Jobs
              let job = shop.Jobs[id]
              from story in job.Stories
              where OwnReadings.MayBeOf(bay, index, new SurfaceKey(id, story.Surface.Id))
              from happened in Look(shop, job, story)
              select happened;
    }

    /// <summary>Decides what a temperature read by hand means.</summary>
    public static IEnumerable<ShopEvent> Decide(Shop shop, JobState job, Tap tap) => tap.PanelC is null || job.LeftAt is not null
        ? []
        : job.Stories.Where(s => s.Surface.Id == tap.Surface).SelectMany(s => Look(shop, job, s));

    private static IEnumerable<ShopEvent> Look(Shop shop, JobState job, SurfaceStory story)
    {
        var subject = new Subject(WarningKind.LampOverLimit, null, null, job.Job.Id, story.Surface.Id, 0, 0);
        double limitC = shop.HeatLimitOfC(story.Surface);
        ImmutableArray<OwnReading> own = OwnReadings.Of(
            shop, new SurfaceKey(job.Job.Id, story.Surface.Id), story, Stay.Of(shop, job.Job, story), shop.Now - Recent);
        if (own.IsEmpty || double.IsPositiveInfinity(limitC))
        {
            return [];
        }

        HeatAhead? ahead = HeatAhead.Of(own, limitC);
        bool stands = ahead is { IsUrgent: true } || (shop.Standing.ContainsKey(subject) && !HeatAhead.IsCooled(own[^1], limitC));
        return Watchman.Tell(shop, subject, stands, ahead?.At > shop.Now ? ahead.At - shop.Now : TimeSpan.Zero);
    }
}
