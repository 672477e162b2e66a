using System.Collections.Immutable;
using CureWatch.Curing;
using CureWatch.Panels;
using CureWatch.Readings;
using CureWatch.Warnings;

namespace CureWatch.Bays;

/// <summary>Warns of a lamp over a surface that heat can spoil while nobody reads that surface.</summary>
/// <remarks>
/// Two minutes after the lamp was told, or five where a probe on that material may turn out to be the one that shows its heat; once it was read, when twice
/// the time has passed in which the next reading was due. A surface is read by hand, or by a probe of its own whose readings follow each other closely enough
/// to be known in between; a slower one does not tell what happens to it, but goes on with what was read. Where the lamp is over a part of it, what was read by hand on
/// another part counts for nothing, and a probe that shows no heat is on another. One lamp is one warning: it stands until the
/// surface is read so again, or the lamp is off. Where people are told already that the surface gets too hot, nothing is added. A lamp told for several surfaces at once is read on any of them.
/// Source (choice): bright lamps bring sheet metal to 60 °C in one to seven minutes; see <see cref="LampSpell.LongestUnread"/>.
/// </remarks>
internal static class UnreadLamps
{
    /// <summary>No bay is as hot as this [°C]: a lamp is. Source (choice).</summary>
    private const double HotC = 40;

    /// <summary>Decides what a reading in a bay means for its lamps.</summary>
    public static IEnumerable<ShopEvent> Decide(Shop shop, RawReading raw)
    {
        BayState bay = shop.Bays[raw.Bay];
        return raw.PanelC is null || bay.Lamps.IsEmpty ? [] : bay.Jobs.Select(j => shop.Jobs[j]).Where(j => j.LampLookAt is not null).SelectMany(j => Look(shop, j));
    }

    /// <summary>Decides what a tap means for the lamps of a job.</summary>
    public static IEnumerable<ShopEvent> Decide(Shop shop, JobState job) =>
        job.LeftAt is null && (job.LampLookAt is not null || job.Stories.Any(s => !s.Lamps.IsEmpty)) ? Look(shop, job) : [];

    /// <summary>Decides where a lamp has burnt unread for too long by now, or has burnt out.</summary>
    public static IEnumerable<ShopEvent> Due(Shop shop) => shop.DueJobs.NextAt <= shop.Now
        ? shop.DueJobs.DueBy(shop.Now).Select(j => shop.Jobs[j]).Where(j => j.LeftAt is null && j.LampLookAt <= shop.Now).SelectMany(j => Look(shop, j))
        : [];

    private static IEnumerable<ShopEvent> Look(Shop shop, JobState job)
    {
        DateTimeOffset? next = null;
        var seen = new HashSet<Subject>();
        foreach (IGrouping<DateTimeOffset, LitSurface> lamp in Burning(shop, job).GroupBy(l => l.Lamp.From))
        {
            LitSurface[] lit = [.. lamp];
            var subject = new Subject(WarningKind.LampUnread) { Job = job.Job.Id, Surface = lit.Length == 1 ? lit[0].Surface : null };
            _ = seen.Add(subject);
            DateTimeOffset? toldAt = shop.Standing.TryGetValue(subject, out int number) ? shop.Warnings[number].RaisedAt : null;
            DateTimeOffset unreadAt = lit.Max(l => l.UnreadAt);
            bool stands = toldAt is { } told
                ? !lit.Any(l => l.IsReadSince(told))
                : unreadAt <= shop.Now && !lit.Any(l => shop.Standing.ContainsKey(HeatLooks.SubjectOf(new SurfaceKey(job.Job.Id, l.Surface))));
            foreach (ShopEvent happened in Watchman.Tell(shop, subject, stands, TimeSpan.Zero))
            {
                yield return happened;
            }

            next = Sooner(next, stands ? lit.Min(l => l.Lamp.To) : unreadAt > shop.Now ? unreadAt : null);
        }

        foreach (Subject over in shop.Standing.Keys.Where(s => s.Kind == WarningKind.LampUnread && s.Job == job.Job.Id && !seen.Contains(s)).Order(SubjectOrder.Instance))
        {
            yield return new ShopEvent.WarningCleared(over, shop.Now);
        }

        if (next != job.LampLookAt)
        {
            yield return new ShopEvent.LampForeseen(job.Job.Id, next);
        }
    }

    private static IEnumerable<LitSurface> Burning(Shop shop, JobState job) =>
        from story in job.Stories
        where story.Lamps is [.., { To: null }] && !double.IsPositiveInfinity(shop.HeatLimitOfC(story.Surface))
        let key = new SurfaceKey(job.Job.Id, story.Surface.Id)
        let lamp = story.Lamps[^1]
        let stays = Stay.Of(shop, job.Job, story)
        let lit = LitSectionsOf(story)
        let own = OwnReadings.Of(shop, key, story, stays, lamp.From - (2 * OwnReading.ReachOfSpot)).RemoveAll(r => r.Section is { } section && !lit.Contains(section))
        let burning = story.Ended(lamp, own)
        where burning.Covers(shop.Now)
        let shown = lit.Length < story.Surface.Sections ? own.Except(story.ReadByHand).Where(r => r.At <= lamp.From).Select(r => (OwnReading?)r).LastOrDefault() : null
        let mayShow = MayShow(shop, stays[^1], key) || shown is not null
        select new LitSurface(
            story.Surface.Id, burning, own, story.ReadByHand, ShownFromC(shown?.PanelC), mayShow ? OwnReading.ReachOfSpot : LampSpell.LongestUnread);

    /// <summary>From which temperature on a probe shows a lamp over a part: one that was hot when the lamp was told, and stays so, shows it too.</summary>
    private static double? ShownFromC(double? beforeC) => beforeC >= HotC ? beforeC : beforeC + LampHeat.ShownK;

    private static ImmutableArray<int> LitSectionsOf(SurfaceStory story) =>
        [.. Enumerable.Range(1, story.SectionLamps.Length).Where(s => story.SectionLamps[s - 1] is [.., { To: null }])];

    private static bool MayShow(Shop shop, Stay stay, SurfaceKey key) =>
        stay.Bay is { } id && shop.Bays[id] is var bay && bay.Heats.TryGetValue(key, out SurfaceHeat? heat) && LampHeat.MayBeShown(bay, heat, shop.Now);

    private static DateTimeOffset? Sooner(DateTimeOffset? a, DateTimeOffset? b) => b is null || a <= b ? a : b;

    /// <summary>A surface under a lamp that burns; a probe on it tells of the lamp once it shows so much, where that may be over another part.</summary>
    private sealed record LitSurface(
        string Surface, Spell Lamp, ImmutableArray<OwnReading> Own, ImmutableArray<OwnReading> ByHand, double? ShownFromC, TimeSpan FirstLook)
    {
        /// <summary>When it counts as unread unless it is read before.</summary>
        public DateTimeOffset UnreadAt
        {
            get
            {
                DateTimeOffset at = Lamp.From + FirstLook;
                OwnReading? kept = null;
                for (int i = 0; i < Own.Length; i++)
                {
                    kept = Tells(i) || (kept is { } before && Own[i].At - before.At <= 2 * before.Reach) ? Own[i] : null;
                    at = kept is { } last && last.At + (2 * last.Reach) is var until && until > at ? until : at;
                }

                return at;
            }
        }

        public bool IsReadSince(DateTimeOffset instant) => Enumerable.Range(0, Own.Length).Any(i => Own[i].At > instant && Tells(i));

        /// <summary>Whether a reading tells what the lamp does to it.</summary>
        private bool Tells(int i) => ByHand.Contains(Own[i]) ? Own[i].At > Lamp.From : i > 0 && Own[i - 1].Reaches(Own[i]) && !(Own[i].PanelC < ShownFromC);
    }
}
