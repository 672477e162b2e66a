using System.Collections.Immutable;
using CureWatch.Curing;
using CureWatch.Panels;
using CureWatch.Products;
using CureWatch.Readings;
using CureWatch.Warnings;

namespace CureWatch.Bays;

/// <summary>What a shop keeps of the past, so that it is no bigger after three years than after a week.</summary>
/// <remarks>
/// A bay keeps its climate since the first wipe of the oldest coat that is or was in it and whose job is not closed, two days at least: taps
/// may be told, and corrected, as late as that. What is older than any reading may still arrive for is kept by the minute, and later its segments
/// by ten; not where somebody did something while a coat waited, so that nothing that was ruled turns by it. All of it follows from the readings and taps alone, so that
/// a replay lets go of the same things at the same instants.
/// </remarks>
internal static class History
{
    /// <summary>How far back a bay remembers, and how long after its car left a job takes taps. Source (choice): a weekend.</summary>
    public static readonly TimeSpan Kept = TimeSpan.FromDays(2);

    /// <summary>Fewest readings between two times a bay lets go of anything. Source (choice): some hours of a usual probe.</summary>
    public const int LeastReadings = 512;

    /// <summary>How many samples a reading may pay to be copied, of which copying takes nanoseconds. Source (choice).</summary>
    private const int SamplesPerReading = 4;

    /// <summary>Fewest warnings at which the shop lets go of any. Source (choice): some months of a usual shop.</summary>
    public const int LeastWarnings = 256;

    /// <summary>What is younger is kept as it came. Source (choice): a little longer than a reading may be late.</summary>
    private static readonly TimeSpan Fresh = ProbeLog.LatestArrival + TimeSpan.FromMinutes(5);

    /// <summary>What is older is kept coarsely. Source (choice): longer than a pass over a car.</summary>
    public static readonly TimeSpan Recent = TimeSpan.FromHours(3);

    /// <summary>Lets a bay go of what nobody asks for any more.</summary>
    public static BayState Tidy(Shop shop, BayState bay)
    {
        ImmutableArray<(SurfaceStory Story, ImmutableArray<WatchPoint> Points)> coated = [.. CoatedIn(shop, bay.Plan.Bay)];
        DateTimeOffset from = coated.SelectMany(c => c.Story.Living).Select(c => c.StartedAt).Append(shop.Now - Kept).Min();
        var ages = new Ages(from, shop.Now - Recent, shop.Now - Fresh);
        ImmutableDictionary<SurfaceKey, SurfaceHeat> heats = bay.Heats.RemoveRange(bay.Heats.Keys.Where(k => shop.Find(k.Job) is null));
        Spell[] lamps = [.. heats.Values.SelectMany(h => h.Lamps)];
        ImmutableArray<DateTimeOffset> acts =
        [
            .. ActsIn(shop, bay.Plan.Bay),
            .. bay.WetSpells.Values.SelectMany(s => s).SelectMany(EndsOf),
            .. bay.Logs.SelectMany(l => UnderLamp.ReadUnder(l.Panel, lamps)),
        ];
        var climates = ImmutableDictionary.CreateBuilder<WatchPoint, WatchedClimate>();
        var watches = new Watches(shop, bay);
        foreach ((WatchPoint point, WatchedClimate climate) in bay.Climates)
        {
            ImmutableHashSet<RateLaw> laws = [.. coated.Where(c => c.Points.Contains(point)).SelectMany(c => shop.AllLawsOf(c.Story.Surface)).SelectMany(l => l.All)];
            if (!laws.IsEmpty)
            {
                climates.Add(point, climate.Follow(watches.Of(point), DateTimeOffset.MaxValue, shop.Now).Tidy(ages, acts, laws));
            }
        }

        var retention = new Retention(from, Comparisons.AskedFor(bay.Logs, from), ages.Fresh, Ages.Fine);
        BayState tidied = bay with
        {
            Logs = [.. bay.Logs.Select(l => l.Tidy(retention, at => UnderLamp.IsUnder(lamps, at)))],
            Climates = climates.ToImmutable(),
            Heats = heats,
            AirChanges = bay.AirChanges.RemoveAll(c => c.At <= from),
            WetSpells = bay.WetSpells.ToImmutableDictionary(s => s.Key, s => s.Value.RemoveAll(w => w.To < from)),
        };
        int samples = tidied.Logs.Sum(l => l.Air.Count + l.Panel.Count), segments = tidied.Climates.Values.Sum(c => c.Track.Segments.Count);
        return tidied with { ReadingsToTidy = Math.Max(LeastReadings, Math.Max(segments / 2, samples / SamplesPerReading)) };
    }

    /// <summary>Lets the shop go of warnings that were over before anything began that is still here.</summary>
    public static Shop TidyWarnings(Shop shop)
    {
        if (shop.Warnings.Count < shop.MostWarnings)
        {
            return shop;
        }

        DateTimeOffset from = shop.Jobs.Values.Select(j => j.OpenedAt).Append(shop.Now - Kept).Min();
        ImmutableSortedDictionary<int, Warning> kept = shop.Warnings.RemoveRange(shop.Warnings.Where(w => w.Value.ClearedAt < from).Select(w => w.Key));
        return shop with { Warnings = kept, MostWarnings = Math.Max(LeastWarnings, 2 * kept.Count) };
    }

    /// <summary>Whether water came before a coat might get wet is not to turn either.</summary>
    private static DateTimeOffset[] EndsOf(Spell spell) => spell.To is { } to ? [spell.From, to] : [spell.From];

    private static IEnumerable<DateTimeOffset> ActsIn(Shop shop, string bay) =>
        from job in shop.Jobs.Values
        where WasIn(job, bay)
        from tap in job.Told
        from at in tap.StartedAt is { } started ? new[] { started, tap.At } : [tap.At]
        select at;

    private static bool WasIn(JobState job, string bay) => job.Job.Bay == bay || job.Stories.Any(s => s.Moves.Any(m => m.ToBay == bay));

    private static IEnumerable<(SurfaceStory Story, ImmutableArray<WatchPoint> Points)> CoatedIn(Shop shop, string bay) =>
        from job in shop.Jobs.Values
        where WasIn(job, bay)
        from story in job.Stories
        where story.Living.Any()
        let points = Stay.Of(shop, job.Job, story).Select(s => s.Point).OfType<WatchPoint>().Where(p => p.Bay == bay)
        select (story, points.Distinct().ToImmutableArray());
}
