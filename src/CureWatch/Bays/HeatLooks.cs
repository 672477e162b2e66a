using System.Collections.Immutable;
using CureWatch.Curing;
using CureWatch.Panels;
using CureWatch.Readings;
using CureWatch.Units;
using CureWatch.Warnings;

namespace CureWatch.Bays;

/// <summary>Warns ahead of the heat a surface can take, from its own readings, while somebody can still switch a lamp off.</summary>
/// <remarks>
/// One episode is one warning: it stands until the surface is read well below its limit and is not on its way there any more, or, where no reading of
/// it is due, has had time to cool since its lamp was off. Whether anybody told of a lamp does not matter: what is heated is heated. Under a lamp that
/// was told, a single reading warns too; every reading in the bay brings it on.
/// </remarks>
internal static class HeatLooks
{
    /// <summary>Readings older than this say nothing about how fast a surface is heated now. Source (choice).</summary>
    private static readonly TimeSpan Recent = TimeSpan.FromMinutes(30);

    /// <summary>How long before a limit foretold by hand somebody is told anyhow: nobody promises to look again. Source (choice): twice what switching off takes.</summary>
    private static readonly TimeSpan NoNextLook = 2 * HeatAhead.ToSwitchOff;

    /// <summary>Decides what a believed reading means for the surfaces that are heated.</summary>
    public static IEnumerable<ShopEvent> Decide(Shop shop, RawReading raw)
    {
        BayState bay = shop.Bays[raw.Bay];
        int index = bay.IndexOf(raw.Probe);
        return bay.Logs[index].IsLook && !(bay.Jobs.IsEmpty && bay.Heats.IsEmpty) ? Look(shop, bay, index, tellsPanel: raw.PanelC is not null) : [];
    }

    /// <summary>Decides what a temperature read by hand means, a lamp that is off, and a car that was moved away from under it.</summary>
    public static IEnumerable<ShopEvent> Decide(Shop shop, JobState job, Tap tap) => (tap.PanelC is null && tap.Did is not (Did.LampOff or Did.Moved)) || job.LeftAt is not null
        ? []
        : job.Stories.Where(s => tap.Surface is null || s.Surface.Id == tap.Surface).SelectMany(s => Look(shop, job, s));

    private static IEnumerable<ShopEvent> Look(Shop shop, BayState bay, int index, bool tellsPanel) =>
        from id in bay.Heats.IsEmpty ? bay.Jobs : bay.Jobs.Union(bay.Heats.Keys.Select(k => k.Job)) // heat spoils what is under a coat that is still to go on, too
        let job = shop.Find(id)
        where job is { LeftAt: null }
        from story in job.Stories
        let key = new SurfaceKey(id, story.Surface.Id)
        where (tellsPanel && OwnReadings.MayBeOf(bay, index, key)) || IsWatched(shop, bay, key)
        from happened in Look(shop, job, story)
        select happened;

    private static bool IsWatched(Shop shop, BayState bay, SurfaceKey key) =>
        shop.Standing.ContainsKey(SubjectOf(key))
        || (bay.Heats.TryGetValue(key, out SurfaceHeat? heat) && heat.Lamps.Any(l => l.Covers(shop.Now) && shop.Now - l.From < LampSpell.Longest));

    /// <summary>What such a warning of a surface is about.</summary>
    public static Subject SubjectOf(SurfaceKey key) => new(WarningKind.LampOverLimit) { Job = key.Job, Surface = key.Surface };

    private static IEnumerable<ShopEvent> Look(Shop shop, JobState job, SurfaceStory story)
    {
        var key = new SurfaceKey(job.Job.Id, story.Surface.Id);
        double limitC = shop.HeatLimitOfC(story.Surface);
        if (double.IsPositiveInfinity(limitC))
        {
            return [];
        }

        bool stood = shop.Standing.ContainsKey(SubjectOf(key));
        ImmutableArray<Stay> stays = Stay.Of(shop, job.Job, story);
        ImmutableArray<OwnReading> own = OwnReadings.Possible(shop, key, story, stays, shop.Now - (stood ? LampSpell.Longest : Recent));
        if (stays[^1].Point is null)
        {
            own = own.RemoveAll(r => r.At < stays[^1].From); // it was moved to where nobody measures; its lamp stayed where it was
        }

        if (own.IsEmpty)
        {
            return Watchman.Tell(shop, SubjectOf(key), stands: false);
        }

        double? airC = stays[^1].Point is { } point && new Present(shop, shop.Now).ExposureAt(point) is { } exposure
            ? Celsius.FromKelvins(exposure.AirKelvins).Degrees
            : null;
        HeatAhead? ahead = HeatAhead.Of(own, limitC) ?? OfOne(story, own, airC, limitC, shop.Now);
        bool isUrgent = ahead is { IsUrgent: true } || (story.ReadByHand.Contains(own[^1]) && ahead?.At <= shop.Now + NoNextLook);
        bool isCooled = ahead is null && HeatAhead.IsCooled(own[^1], limitC);
        bool stands = (isUrgent || (stood && !isCooled)) && !HasHadTimeToCool(story, own, airC, limitC, shop.Now);
        return Watchman.Tell(shop, SubjectOf(key), stands, ahead?.At > shop.Now ? ahead.At - shop.Now : TimeSpan.Zero);
    }

    private static HeatAhead? OfOne(SurfaceStory story, ImmutableArray<OwnReading> own, double? airC, double limitC, DateTimeOffset now) =>
        airC is { } unlitC && story.Lamps.LastOrDefault(l => l.Covers(now)) is { } lamp && own[^1].At > lamp.From && story.ReadByHand.Contains(own[^1])
            && (own.Length < 2 || own[^2].At < lamp.From || !own[^2].Reaches(own[^1]))
            ? HeatAhead.OfOne(new OwnReading(lamp.From, unlitC, TimeSpan.Zero), own[^1], limitC, now)
            : null;

    /// <summary>Without another reading it cools as its material does, from the last one, once every lamp is off that was told.</summary>
    private static bool HasHadTimeToCool(SurfaceStory story, ImmutableArray<OwnReading> own, double? airC, double limitC, DateTimeOffset now)
    {
        DateTimeOffset off = story.Lamps.IsEmpty ? own[^1].At + LampSpell.Longest : story.Lamps[^1].Ended(own).To!.Value;
        DateTimeOffset from = off > own[^1].At ? off : own[^1].At;
        double cooledC = limitC - HeatAhead.CooledK;
        bool isAwaited = !story.ReadByHand.Contains(own[^1]) && now - own[^1].At <= own[^1].Reach;
        return !isAwaited && airC < cooledC
            && now >= from + OneNode.TimeTo(own[^1].PanelC - airC.Value, cooledC - airC.Value, PanelHeat.Of(story.Surface.Material, story.Surface.Over).TimeConstant)
            && now > from;
    }
}
