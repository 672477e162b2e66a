using CureWatch.Curing;
using CureWatch.Panels;

namespace CureWatch.Bays;

/// <summary>Takes in what a tap tells of the temperature of one surface: read by hand, put under a lamp, taken somewhere else.</summary>
internal static class HeatTold
{
    /// <summary>Lets the bays know, and settles their climates anew from when the tap changes them.</summary>
    /// <param name="shop">The shop.</param>
    /// <param name="job">The job, the tap taken down.</param>
    /// <param name="tap">The tap.</param>
    /// <returns>The shop.</returns>
    public static Shop Apply(Shop shop, JobState job, Tap tap)
    {
        Tap? corrected = tap.Corrects is null ? null : job.Told.FirstOrDefault(t => t.Id == tap.Corrects);
        if (!IsOfHeat(tap) && !(corrected is not null && IsOfHeat(corrected)))
        {
            return shop;
        }

        DateTimeOffset from = corrected?.At < tap.At ? corrected.At : tap.At;
        ILookup<string, (SurfaceStory Story, Stay Stay)> stays = (
            from story in job.Stories
            from stay in Stay.Of(shop, job.Job, story)
            where stay.Bay is not null
            select (story, stay)).ToLookup(s => s.stay.Bay!);
        IEnumerable<string> before = shop.Bays.Values.Where(b => b.Heats.Keys.Any(k => k.Job == job.Job.Id)).Select(b => b.Plan.Bay);
        foreach (string id in stays.Select(s => s.Key).Union(before).Order(StringComparer.Ordinal)) // it was never where a move that is taken back had brought it
        {
            BayState bay = shop.Bays[id];
            bay = bay with { Heats = bay.Heats.RemoveRange(job.Stories.Select(s => KeyOf(job, s))).AddRange(HeatsOf(job, stays[id])) };
            var watches = new Watches(shop, bay);
            shop = shop.With(bay with
            {
                Climates = bay.Climates.SetItems(bay.Climates.Select(
                    c => KeyValuePair.Create(c.Key, c.Value.Extend(watches.Of(c.Key), from, shop.Now)))),
            });
        }

        return shop;
    }

    /// <summary>What was settled of a point before it had a history of its own: that of its kind, up to when the history began.</summary>
    /// <param name="bay">The bay.</param>
    /// <param name="point">The point.</param>
    /// <returns>The climate.</returns>
    public static WatchedClimate Begin(BayState bay, WatchPoint point)
    {
        if (point.Own is not { } own || !bay.Climates.TryGetValue(point.Shared(), out WatchedClimate? shared)
            || !bay.Heats.TryGetValue(own, out SurfaceHeat? heat))
        {
            return WatchedClimate.Blank;
        }

        DateTimeOffset began = heat.Spots.Select(s => s.At).Concat(heat.Lamps.Select(l => l.From)).DefaultIfEmpty(DateTimeOffset.MaxValue).Min();
        return new WatchedClimate(shared.Track.RewindTo(began), []);
    }

    private static bool IsOfHeat(Tap tap) => tap.PanelC is not null || tap.Did is Did.LampOn or Did.LampOff or Did.Moved;

    /// <summary>A lamp burnt in one bay; what was read by hand is carried along.</summary>
    private static IEnumerable<KeyValuePair<SurfaceKey, SurfaceHeat>> HeatsOf(JobState job, IEnumerable<(SurfaceStory Story, Stay Stay)> here) =>
        from stays in here.GroupBy(h => h.Story, h => h.Stay)
        let story = stays.Key
        where story.HasOwnHeat
        let surface = story.Surface
        let lamps = story.Lamps.Where(l => stays.Any(s => s.From <= l.From && !(s.To <= l.From)))
        select KeyValuePair.Create(
            KeyOf(job, story),
            new SurfaceHeat(surface.Material, surface.Place, PanelHeat.Of(surface.Material, surface.Over).TimeConstant, story.Spots, [.. lamps]));

    private static SurfaceKey KeyOf(JobState job, SurfaceStory story) => new(job.Job.Id, story.Surface.Id);
}
