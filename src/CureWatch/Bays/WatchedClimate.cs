using System.Collections.Immutable;
using CureWatch.Curing;
using CureWatch.Panels;
using CureWatch.Products;

namespace CureWatch.Bays;

/// <summary>The settled climate at a watch point, and what the laws in use there have earned along it.</summary>
/// <param name="Track">The settled climate.</param>
/// <param name="Tables">The sums of every law that was ever in use there.</param>
/// <param name="InUse">The laws that a coat still needs.</param>
public sealed record WatchedClimate(
    ClimateTrack Track, ImmutableDictionary<RateLaw, CreditTable> Tables, ImmutableHashSet<RateLaw> InUse)
{
    /// <summary>A point nothing was measured at.</summary>
    public static WatchedClimate Blank { get; } = new(ClimateTrack.Blank, ImmutableDictionary<RateLaw, CreditTable>.Empty, []);

    /// <summary>Takes in what the probes told since.</summary>
    /// <param name="watch">The probes.</param>
    /// <param name="changedFrom">From when on the newest reading to come changes the climate; what was settled after it is unsettled.</param>
    /// <param name="now">The present.</param>
    /// <returns>The longer climate.</returns>
    public WatchedClimate Extend(Watch watch, DateTimeOffset changedFrom, DateTimeOffset now)
    {
        ClimateTrack kept = Track.RewindTo(changedFrom);
        ClimateTrack track = kept.Extend(watch, now);
        ImmutableDictionary<RateLaw, CreditTable> tables = Tables;
        foreach ((RateLaw law, CreditTable table) in Tables)
        {
            CreditTable followed = kept == Track ? table : table.RewindTo(kept);
            tables = tables.SetItem(law, InUse.Contains(law) ? followed.Extend(track) : followed);
        }

        return new WatchedClimate(track, tables, InUse);
    }

    /// <summary>Puts laws in use from an instant on.</summary>
    /// <param name="laws">The laws.</param>
    /// <param name="from">The instant.</param>
    /// <returns>The climate with tables that reach back to it.</returns>
    public WatchedClimate Use(IEnumerable<RateLaw> laws, DateTimeOffset from)
    {
        ImmutableDictionary<RateLaw, CreditTable> tables = Tables;
        ImmutableHashSet<RateLaw> inUse = InUse;
        foreach (RateLaw law in laws)
        {
            bool reachesBack = tables.TryGetValue(law, out CreditTable? table) && Track.Segments.CountWhile(s => s.End <= from) >= table.First;
            tables = tables.SetItem(law, reachesBack ? table!.Extend(Track) : CreditTable.Begin(law, Track, from));
            inUse = inUse.Add(law);
        }

        return this with { Tables = tables, InUse = inUse };
    }

    /// <summary>Leaves only the laws in use that a coat still needs.</summary>
    /// <param name="laws">The laws still needed.</param>
    /// <returns>The climate.</returns>
    public WatchedClimate Release(ImmutableHashSet<RateLaw> laws) => this with { InUse = InUse.Intersect(laws) };

    /// <summary>Lets go of what nobody asks for any more.</summary>
    /// <param name="from">The instant up to which nobody does.</param>
    /// <param name="fresh">The instant up to which nothing that still comes can change anything.</param>
    /// <param name="spacing">How close together what is older than that is kept.</param>
    /// <param name="laws">The laws somebody may still ask for.</param>
    /// <returns>The climate; what a law has earned between any two instants kept is as it was.</returns>
    public WatchedClimate Tidy(DateTimeOffset from, DateTimeOffset fresh, TimeSpan spacing, ImmutableHashSet<RateLaw> laws)
    {
        ImmutableArray<CreditTable> tables = [.. Tables.Values.Where(t => laws.Contains(t.Law) || InUse.Contains(t.Law))];
        (ClimateTrack track, TrackThinning thinning) = Track.Thin(from, fresh, spacing, [.. tables.SelectMany(t => t.Borders)]);
        return new WatchedClimate(track, tables.ToImmutableDictionary(t => t.Law, t => t.Follow(thinning)), InUse);
    }
}
