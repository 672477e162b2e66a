using System.Collections.Immutable;
using CureWatch.Curing;
using CureWatch.Panels;

namespace CureWatch.Bays;

/// <summary>That a lamp burns, or burnt, in an air of a bay.</summary>
/// <param name="Job">The job whose surface it heats.</param>
/// <param name="Air">The place that stands for the air.</param>
/// <param name="From">Since when.</param>
/// <param name="To">Until when; null while nobody told that it is off.</param>
public sealed record NearbyLamp(string Job, Place Air, DateTimeOffset From, DateTimeOffset? To)
{
    /// <summary>How long what a lamp warmed stays warm [30 min]. Source (choice): five times the time constant of a small sensor's case.</summary>
    public static readonly TimeSpan Afterglow = TimeSpan.FromMinutes(30);

    /// <summary>Whether it may warm a probe.</summary>
    /// <param name="shop">The shop, whose surfaces show how long a lamp burns that nobody told is off.</param>
    /// <param name="at">The instant.</param>
    /// <returns>True while it burns, and for the afterglow.</returns>
    public bool MayWarmAt(Shop shop, DateTimeOffset at) => From <= at && at <= EndIn(shop) + Afterglow;

    /// <summary>When it is off, as far as anybody knows.</summary>
    internal DateTimeOffset EndIn(Shop shop) => To ?? (shop.Jobs.TryGetValue(Job, out JobState? job) ? job.Stories : [])
        .Where(s => PlaceAir.Of(s.Surface.Place) == Air)
        .Select(s => UnderLamp.EndOf(shop, new SurfaceKey(Job, s.Surface.Id), From))
        .DefaultIfEmpty(From + LampSpell.Longest)
        .Max();

    /// <summary>Keeps in the bays where the lamps of a job burn.</summary>
    /// <param name="shop">The shop, a tap taken down.</param>
    /// <param name="job">The job.</param>
    /// <returns>The shop.</returns>
    internal static Shop Follow(Shop shop, JobState job)
    {
        ILookup<string, NearbyLamp> lit = Of(shop, job).ToLookup(l => l.Bay, l => l.Lamp);
        foreach (BayState bay in shop.Bays.Values.Where(b => lit.Contains(b.Plan.Bay) || b.Lamps.Any(l => l.Job == job.Job.Id)).ToArray())
        {
            ImmutableArray<NearbyLamp> others = bay.Lamps.RemoveAll(l => l.Job == job.Job.Id || l.EndIn(shop) < shop.Now - History.Kept);
            shop = shop.With(bay with { Lamps = [.. others, .. lit[bay.Plan.Bay].Distinct()] });
        }

        return shop;
    }

    /// <summary>Lamps a job left on are off once its car is gone.</summary>
    /// <param name="shop">The shop, the car gone.</param>
    /// <param name="job">The job's id.</param>
    /// <returns>The shop.</returns>
    internal static Shop PutOut(Shop shop, string job)
    {
        foreach (BayState bay in shop.Bays.Values.Where(b => b.Lamps.Any(l => l.Job == job && l.To is null)).ToArray())
        {
            shop = shop.With(bay with { Lamps = [.. bay.Lamps.Select(l => l.Job == job ? l with { To = l.To ?? shop.Now } : l)] });
        }

        return shop;
    }

    private static IEnumerable<(string Bay, NearbyLamp Lamp)> Of(Shop shop, JobState job) =>
        from story in job.Stories
        where !story.Lamps.IsEmpty
        let stays = Stay.Of(shop, job.Job, story)
        from spell in story.Lamps
        let bay = stays.Last(s => s.From <= spell.From).Bay
        where bay is not null
        select (bay, new NearbyLamp(job.Job.Id, PlaceAir.Of(story.Surface.Place), spell.From, spell.To));
}
