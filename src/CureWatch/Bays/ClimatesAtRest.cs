using System.Collections.Immutable;

namespace CureWatch.Bays;

/// <summary>What is known of all climates of a bay at once, so that most readings need not look at each of them.</summary>
/// <param name="SettledTo">Up to when the furthest of them is settled; null where none is.</param>
/// <param name="FollowAt">From when on one of them has to be followed, while no reading changes what is settled.</param>
internal sealed record ClimatesAtRest(DateTimeOffset? SettledTo, DateTimeOffset FollowAt)
{
    /// <summary>Looks at each.</summary>
    /// <param name="climates">The climates.</param>
    /// <param name="now">The present: it holds from then on, until one of them changes.</param>
    /// <returns>What is known of them.</returns>
    public static ClimatesAtRest Of(ImmutableDictionary<WatchPoint, WatchedClimate> climates, DateTimeOffset now)
    {
        DateTimeOffset? settledTo = null;
        DateTimeOffset followAt = DateTimeOffset.MaxValue;
        foreach (WatchedClimate climate in climates.Values)
        {
            settledTo = settledTo >= climate.Track.SettledTo ? settledTo : climate.Track.SettledTo ?? settledTo;
            followAt = climate.FollowAt(now) is var at && at < followAt ? at : followAt;
        }

        return new ClimatesAtRest(settledTo, followAt);
    }
}
