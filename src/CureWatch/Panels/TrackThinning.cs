using System.Collections.Immutable;
using CureWatch.Readings;

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

    /// <summary>Lets go of the oldest segments, and makes fewer of old ones.</summary>
    /// <param name="segments">The segments.</param>
    /// <param name="ages">How old is old.</param>
    /// <param name="firsts">Indices of those that stay the beginning of one.</param>
    /// <returns>The track of what is kept, and which became which.</returns>
    internal static (ClimateTrack Track, TrackThinning Thinning) Of(Trail<ClimateSegment> segments, Ages ages, HashSet<int> firsts)
    {
        int dropped = Math.Max(0, Math.Min(segments.CountWhile(ages.From, static (in s, border) => s.End <= border), segments.Count - 1));
        int untouched = dropped == 0 ? CountBeforeJoined(segments, ages, firsts) : 0;
        Trail<ClimateSegment> thin = untouched > 0 ? segments.Take(untouched) : new Trail<ClimateSegment>();
        var lasts = ImmutableArray.CreateBuilder<int>(segments.Count - dropped);
        lasts.AddRange(Enumerable.Range(0, untouched));
        for (int i = dropped + untouched; i < segments.Count; i++)
        {
            ClimateSegment whole = segments[i];
            while (Joins(segments, whole, i + 1, ages, firsts))
            {
                whole = Joined(whole, segments[++i]);
            }

            thin = thin.Append(whole);
            lasts.Add(i);
        }

        return (new ClimateTrack(thin), new TrackThinning(dropped, lasts.DrainToImmutable()));
    }

    private static int CountBeforeJoined(Trail<ClimateSegment> segments, Ages ages, HashSet<int> firsts)
    {
        int count = 0;
        while (count < segments.Count && !Joins(segments, segments[count], count + 1, ages, firsts))
        {
            count++;
        }

        return count;
    }

    private static bool Joins(Trail<ClimateSegment> segments, in ClimateSegment whole, int index, Ages ages, HashSet<int> firsts)
    {
        if (index == segments.Count)
        {
            return false;
        }

        ref readonly ClimateSegment next = ref segments[index];
        return next.End - whole.Start <= SpacingOf(whole, ages.SpacingAt(next.End)) && IsSeen(whole) && IsSeen(next)
            && next.Alternatives.Length == whole.Alternatives.Length && !firsts.Contains(index);
    }

    private static ClimateSegment Joined(in ClimateSegment whole, in ClimateSegment next) => whole with
    {
        End = next.End,
        AtEnd = next.AtEnd,
        GoesOn = next.GoesOn,
        Alternatives = whole.Alternatives.IsEmpty ? [] : [.. whole.Alternatives.Zip(next.Alternatives, (a, b) => a with { AtEnd = b.AtEnd })],
    };

    /// <summary>Which of several opinions is the worst may change within minutes, so those are never kept coarsely.</summary>
    private static TimeSpan SpacingOf(in ClimateSegment segment, TimeSpan spacing) =>
        segment.Alternatives.IsEmpty || spacing < Ages.Fine ? spacing : Ages.Fine;

    private static bool IsSeen(in ClimateSegment segment) => segment is { Unseen: null, IsUnconfirmed: false, Apart: null };
}
