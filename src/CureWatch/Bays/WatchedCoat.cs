using CureWatch.Curing;
using CureWatch.TimeWindows;

namespace CureWatch.Bays;

/// <summary>A living coat that is watched.</summary>
/// <param name="Key">Its name.</param>
/// <param name="Story">The story of its surface.</param>
/// <param name="Coat">The coat.</param>
/// <param name="Laws">The laws of its product.</param>
/// <param name="Point">The point that watches it now; null where nobody does.</param>
/// <param name="ReviewAt">When it has to be looked at again.</param>
/// <param name="FollowedFrom">
/// From when on a reading is reason enough to look at it, because somebody has to do something to it in time; null where nobody has.
/// </param>
public sealed record WatchedCoat(
    CoatKey Key, SurfaceStory Story, Coat Coat, CoatLaws Laws, WatchPoint? Point, DateTimeOffset ReviewAt, DateTimeOffset? FollowedFrom)
{
    /// <summary>Whether its keep-dry is over at the latest, as it was looked at last: from then on no water and no cold air can spoil it.</summary>
    public bool IsDry { get; init; }
}
