using System.Collections.Immutable;

namespace CureWatch.Panels;

/// <summary>Which segments of a track became which, so that sums along it can follow.</summary>
/// <param name="Dropped">How many of the oldest were let go of.</param>
/// <param name="Lasts">For each segment now, the index before of the last one in it.</param>
public sealed record TrackThinning(int Dropped, ImmutableArray<int> Lasts)
{
    /// <summary>How many of the oldest stayed as they were, so that what is summed up over them can be kept in one piece.</summary>
    public int Untouched { get; } = Lasts.TakeWhile((last, i) => last == i).Count();

    /// <summary>Where a segment that began one before stands now.</summary>
    /// <param name="index">Its index before, of the first segment of a stretch, or one past the last segment.</param>
    /// <returns>Its index now; 0 where it was let go of.</returns>
    public int Now(int index)
    {
        int found = Lasts.BinarySearch(index);
        return found >= 0 ? found : ~found;
    }
}
