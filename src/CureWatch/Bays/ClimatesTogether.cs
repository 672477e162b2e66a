using System.Collections.Immutable;

namespace CureWatch.Bays;

/// <summary>What is known of all climates of a bay at once, so that most readings need not look at each of them.</summary>
/// <param name="SettledTo">Up to when the furthest of them is settled; null where none is.</param>
/// <param name="LookAt">From when on each has to be looked at, since one of them may have to be followed, while no reading changes what is settled.</param>
internal sealed record ClimatesTogether(DateTimeOffset? SettledTo, DateTimeOffset LookAt)
{
    /// <summary>Looks at each.</summary>
    /// <param name="climates">The climates.</param>
    /// <param name="now">The present: it holds from then on, until one of them changes.</param>
    /// <returns>What is known of them.</returns>
    public static ClimatesTogether Of(ImmutableDictionary<WatchPoint, WatchedClimate> climates, DateTimeOffset now)
    {
        DateTimeOffset? settledTo = null;
        DateTimeOffset lookAt = DateTimeOffset.MaxValue;
        foreach (WatchedClimate climate in climates.Values)
        {
            settledTo = settledTo >= climate.Track.SettledTo ? settledTo : climate.Track.SettledTo ?? settledTo;
            lookAt = climate.FollowAt(now) is var at && at < lookAt ? at : lookAt;
        }

        return new ClimatesTogether(settledTo, lookAt);
    }
}
