using System.Collections.Immutable;
using CureWatch.Panels;
using CureWatch.Products;
using CureWatch.Readings;

namespace CureWatch.Curing;

/// <summary>One law's progress along a climate track, summed up: every coat on that law is two look-ups.</summary>
/// <param name="Law">The rate law.</param>
/// <param name="First">Index of the track's segment the sums begin with.</param>
/// <param name="Sums">Progress from the start of that segment to the end of each one after.</param>
public sealed record CreditTable(RateLaw Law, int First, Trail<Credit> Sums)
{
    /// <summary>Progress before the first segment, along what the track has let go of: only differences count.</summary>
    public Credit Base { get; private init; }

    /// <summary>Whether a coat still follows it, so that it has to be summed up with every reading.</summary>
    public bool IsInUse { get; init; }

    /// <summary>Index of the track's first segment that is not summed up yet.</summary>
    public int End => First + Sums.Count;

    /// <summary>The segments at which the table begins and ends.</summary>
    public ImmutableArray<int> Borders => [First, End];

    /// <summary>Begins a table.</summary>
    /// <param name="law">The rate law.</param>
    /// <param name="track">The track.</param>
    /// <param name="from">The instant from which progress will be asked for.</param>
    /// <returns>The table, summed up to the end of the track.</returns>
    public static CreditTable Begin(RateLaw law, ClimateTrack track, DateTimeOffset from) =>
        new CreditTable(law, track.Segments.CountWhile((in s) => s.End <= from), new Trail<Credit>()).Extend(track);

    /// <summary>Sums up what the track has settled since.</summary>
    /// <param name="track">The track, longer than before.</param>
    /// <returns>The longer table.</returns>
    public CreditTable Extend(ClimateTrack track) => Extend(track, new Courses(track, track.Segments.Count));

    /// <summary>Sums up what the track has settled since.</summary>
    /// <param name="track">The track, longer than before.</param>
    /// <param name="courses">What all laws see of its newest segments.</param>
    /// <returns>The longer table.</returns>
    public CreditTable Extend(ClimateTrack track, Courses courses)
    {
        Trail<Credit> sums = Sums;
        Credit sum = sums.Count == 0 ? Base : sums.Last;
        for (int i = End; i < track.Segments.Count; i++)
        {
            sum += CureIntegral.Over(Law, track.Segments[i], courses.Of(i));
            sums = sums.Append(sum);
        }

        return sums == Sums ? this : this with { Sums = sums };
    }

    /// <summary>Follows a track some segments of which were found again; what the others earned stands.</summary>
    /// <param name="track">The track, cut into the same segments as before.</param>
    /// <param name="found">Which of them.</param>
    /// <returns>The table.</returns>
    internal CreditTable Anew(ClimateTrack track, Range found)
    {
        int first = Math.Max(First, found.Start.Value);
        if (first >= Math.Min(End, found.End.Value))
        {
            return this;
        }

        Trail<Credit> sums = Sums.Take(first - First);
        Credit sum = sums.Count == 0 ? Base : sums.Last;
        for (int i = first; i < End; i++)
        {
            sum += i < found.End.Value ? CureIntegral.Over(Law, track.Segments[i]) : Sums[i - First] - (i > First ? Sums[i - First - 1] : Base);
            sums = sums.Append(sum);
        }

        return this with { Sums = sums };
    }

    /// <summary>Whether the table is summed up to an instant.</summary>
    /// <param name="track">The track the table follows.</param>
    /// <param name="instant">The instant, inside the track.</param>
    /// <returns>False where <see cref="Extend(ClimateTrack)"/> has to come first.</returns>
    public bool Covers(ClimateTrack track, DateTimeOffset instant) =>
        End == track.Segments.Count || (Sums.Count > 0 && track.Segments[End - 1].End >= instant);

    /// <summary>Follows a track that was rewound.</summary>
    /// <param name="track">The track, shorter than before.</param>
    /// <returns>The shorter table. It begins where the track ends now, if that was before: what comes there may be cut into other segments.</returns>
    public CreditTable RewindTo(ClimateTrack track)
    {
        int first = Math.Min(First, track.Segments.Count);
        return End > track.Segments.Count ? this with { First = first, Sums = Sums.Take(track.Segments.Count - first) } : this;
    }

    /// <summary>Follows a track that was thinned: the sums at the ends of the segments kept stay as they were.</summary>
    /// <param name="thinning">Which segments became which; the table's borders among them.</param>
    /// <returns>The shorter table.</returns>
    public CreditTable Follow(TrackThinning thinning)
    {
        int unseen = Math.Min(Sums.Count, thinning.Dropped - First);
        int first = thinning.Now(First);
        Trail<Credit> sums = Sums.Take(Math.Max(0, thinning.Untouched - First));
        for (int i = first + sums.Count; i < thinning.Lasts.Length && thinning.Lasts[i] < End; i++)
        {
            sums = sums.Append(Sums[thinning.Lasts[i] - First]);
        }

        return this with { First = first, Sums = sums, Base = unseen > 0 ? Sums[unseen - 1] : Base };
    }

    /// <summary>Progress from the table's beginning to an instant.</summary>
    /// <param name="track">The track the table follows.</param>
    /// <param name="instant">The instant, inside the table.</param>
    /// <returns>The progress.</returns>
    public Credit Until(ClimateTrack track, DateTimeOffset instant)
    {
        int index = Math.Max(First, track.Segments.CountWhile(instant, static (in s, border) => s.End <= border));
        Credit before = index > First ? Sums[index - First - 1] : Base;
        if (index >= track.Segments.Count || track.Segments[index].Start >= instant)
        {
            return before;
        }

        ClimateSegment segment = track.Segments[index];
        return before + CureIntegral.Over(Law, segment.Between(segment.Start, instant));
    }

    /// <summary>When progress since an instant reaches an amount.</summary>
    /// <param name="track">The track the table follows.</param>
    /// <param name="start">The instant, inside the table.</param>
    /// <param name="hours">The amount [reference h], above 0.</param>
    /// <param name="pace">The pace.</param>
    /// <returns>The instant; null where the track ends before.</returns>
    public DateTimeOffset? ReachedAt(ClimateTrack track, DateTimeOffset start, double hours, Pace pace)
    {
        double target = Until(track, start).Of(pace) + hours;
        int index = Sums.CountWhile((in s) => s.Of(pace) < target);
        if (index == Sums.Count)
        {
            return null;
        }

        double before = (index > 0 ? Sums[index - 1] : Base).Of(pace);
        return CureIntegral.ReachedAt(Law, track.Segments[First + index], target - before, pace);
    }
}
