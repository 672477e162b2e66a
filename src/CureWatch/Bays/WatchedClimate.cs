using System.Collections.Immutable;
using CureWatch.Curing;
using CureWatch.Panels;
using CureWatch.Products;

namespace CureWatch.Bays;

/// <summary>The settled climate at a watch point, and what the laws in use there have earned along it.</summary>
/// <param name="Track">The settled climate.</param>
/// <param name="Tables">The sums of every law that a coat of a car that is here asks for, or asked for.</param>
public sealed record WatchedClimate(ClimateTrack Track, ImmutableArray<CreditTable> Tables)
{
    /// <summary>A point nothing was measured at.</summary>
    public static WatchedClimate Blank { get; } = new(ClimateTrack.Blank, []);

    /// <summary>How far the climate may be behind where no coat waits for it [10 min]: what is asked of it is followed to the present all the same. Source (choice).</summary>
    private static readonly TimeSpan Rest = TimeSpan.FromMinutes(10);

    /// <summary>How far it is behind where one probe tells all there is, so that of what is old only what will be kept has to be followed [3 h]. Source (choice): of <see cref="History"/>.</summary>
    private static readonly TimeSpan Behind = History.Recent;

    /// <summary>How much further behind it then may be [1 h]. Source (choice): what is asked of it costs little more by that.</summary>
    private static readonly TimeSpan LongRest = TimeSpan.FromHours(1);

    /// <summary>Finds the sums of a law.</summary>
    /// <param name="law">The law.</param>
    /// <returns>Its table; null where no coat asked for it.</returns>
    public CreditTable? TableOf(RateLaw law)
    {
        foreach (CreditTable table in Tables)
        {
            if (table.Law.Equals(law))
            {
                return table;
            }
        }

        return null;
    }

    /// <summary>Whether a coat waits for what is earned here.</summary>
    internal bool IsAwaited
    {
        get
        {
            foreach (CreditTable table in Tables)
            {
                if (table.IsInUse)
                {
                    return true;
                }
            }

            return false;
        }
    }

    /// <summary>Whether what the probes tell has to be taken in.</summary>
    /// <param name="changedFrom">From when on the newest reading to come changes the climate.</param>
    /// <param name="now">The present.</param>
    /// <returns>False where no coat waits for it any more, nothing that is settled changes, and enough of it is.</returns>
    internal bool HasToFollow(DateTimeOffset changedFrom, DateTimeOffset now) => !(Track.SettledTo <= changedFrom) || FollowAt(now) <= now;

    /// <summary>From when on what the probes tell has to be taken in, while nothing changes that is settled.</summary>
    /// <param name="now">The present.</param>
    /// <returns>The instant; not after the present where it has to be now.</returns>
    internal DateTimeOffset FollowAt(DateTimeOffset now) => IsAwaited || Track.SettledTo is not { } settled ? now
        : now - settled < Rest ? settled + Rest
        : now - settled < Behind ? now
        : settled + Behind + LongRest;

    /// <summary>Takes in what the probes told since; where no coat waits for it and one probe tells all there is, only what is old.</summary>
    /// <param name="watch">The probes.</param>
    /// <param name="changedFrom">From when on the newest reading to come changes the climate; what was settled after it is unsettled.</param>
    /// <param name="now">The present.</param>
    /// <returns>The longer climate.</returns>
    internal WatchedClimate Follow(Watch watch, DateTimeOffset changedFrom, DateTimeOffset now) =>
        Track.SettledTo <= changedFrom && !IsAwaited && CoarseKnots.AreEnoughFor(watch)
            ? this with { Track = Track.ExtendCoarsely(watch, now - Behind, now) }
            : Extend(watch, changedFrom, now);

    /// <summary>Takes in all that the probes told since, where no coat waited for it.</summary>
    /// <param name="watch">The probes.</param>
    /// <param name="now">The present.</param>
    /// <returns>The longer climate; the same where a coat waits for it, which is followed with every reading.</returns>
    internal WatchedClimate CaughtUp(Watch watch, DateTimeOffset now) => IsAwaited ? this : Extend(watch, DateTimeOffset.MaxValue, now);

    /// <summary>Takes in what the probes told since.</summary>
    /// <param name="watch">The probes.</param>
    /// <param name="changedFrom">From when on the newest reading to come changes the climate; what was settled after it is unsettled.</param>
    /// <param name="now">The present.</param>
    /// <returns>The longer climate.</returns>
    public WatchedClimate Extend(Watch watch, DateTimeOffset changedFrom, DateTimeOffset now)
    {
        ClimateTrack kept = Track.RewindTo(changedFrom);
        ClimateTrack track = kept.Extend(watch, now);
        if (track == Track)
        {
            return this;
        }

        var courses = new Courses(track, kept.Segments.Count);
        var tables = ImmutableArray.CreateBuilder<CreditTable>(Tables.Length);
        foreach (CreditTable table in Tables)
        {
            CreditTable followed = kept == Track ? table : table.RewindTo(kept);
            tables.Add(table.IsInUse ? followed.Extend(track, courses) : followed);
        }

        return new WatchedClimate(track, tables.MoveToImmutable());
    }

    /// <summary>Finds again what was left open while a panel was waited for, now that it is heard again.</summary>
    /// <param name="watch">The probes.</param>
    /// <param name="since">When the panel was heard before.</param>
    /// <param name="now">The present.</param>
    /// <returns>The climate; the same where nothing was left open.</returns>
    internal WatchedClimate Confirm(Watch watch, DateTimeOffset since, DateTimeOffset now)
    {
        (ClimateTrack track, Range found) = Track.Confirm(watch, since, now);
        return track == Track ? this : new WatchedClimate(track, [.. Tables.Select(t => t.Anew(track, found))]);
    }

    /// <summary>Puts laws in use from an instant on.</summary>
    /// <param name="laws">The laws.</param>
    /// <param name="from">The instant.</param>
    /// <returns>The climate with tables that reach back to it.</returns>
    public WatchedClimate Use(IEnumerable<RateLaw> laws, DateTimeOffset from)
    {
        var tables = Tables.ToBuilder();
        foreach (RateLaw law in laws.Distinct())
        {
            CreditTable? table = TableOf(law);
            bool reachesBack = table is not null && Track.Segments.CountWhile((in s) => s.End <= from) >= table.First;
            CreditTable used = (reachesBack ? table!.Extend(Track) : CreditTable.Begin(law, Track, from)) with { IsInUse = true };
            if (table is null)
            {
                tables.Add(used);
            }
            else
            {
                tables[Tables.IndexOf(table)] = used;
            }
        }

        return this with { Tables = tables.ToImmutable() };
    }

    /// <summary>Leaves only the laws in use that a coat still needs.</summary>
    /// <param name="laws">The laws still needed.</param>
    /// <returns>The climate.</returns>
    public WatchedClimate Release(ImmutableHashSet<RateLaw> laws) =>
        this with { Tables = [.. Tables.Select(t => t.IsInUse && !laws.Contains(t.Law) ? t with { IsInUse = false } : t)] };

    /// <summary>Lets go of what nobody asks for any more.</summary>
    /// <param name="ages">How old is old.</param>
    /// <param name="instants">When people did something: what is read off there stays the same to the last digit.</param>
    /// <param name="laws">The laws somebody may still ask for.</param>
    /// <returns>
    /// The climate; what a law has earned between any two instants kept is as it was. Since no coat waits for it, a law's sums follow what is kept.
    /// </returns>
    public WatchedClimate Tidy(Ages ages, IEnumerable<DateTimeOffset> instants, ImmutableHashSet<RateLaw> laws)
    {
        ImmutableArray<CreditTable> tables = [.. Tables.Where(t => t.IsInUse || laws.Contains(t.Law))];
        (ClimateTrack track, TrackThinning thinning) = Track.Thin(ages, tables.SelectMany(t => t.Borders), instants);
        tables = [.. tables.Select(t => t.Follow(thinning))];
        var courses = new Courses(track, tables.Select(t => t.End).Append(track.Segments.Count).Min());
        return new WatchedClimate(track, [.. tables.Select(t => t.Extend(track, courses))]);
    }
}
