using CureWatch.Readings;

namespace CureWatch.Panels;

/// <summary>The settled climate of a place, as straight segments one after the other.</summary>
/// <param name="Segments">The segments, each starting where the one before ends.</param>
/// <remarks>Where the only probe was replaced by another, nobody measured between the last reading of the one and the first of the other.</remarks>
public sealed record ClimateTrack(Trail<ClimateSegment> Segments)
{
    /// <summary>
    /// While one probe is lost, how many readings of each other one are followed; the rest is one stretch. Source (choice): some of them
    /// speak once more after it, and what follows can't be settled for as long as it is away.
    /// </summary>
    private const int KnotsFollowedPerProbe = 2;

    /// <summary>Segments that stay as they are at an instant: the one that ends there or after it, and the two behind.</summary>
    private const int SegmentsAround = 3;

    /// <summary>A track nothing was measured for.</summary>
    public static ClimateTrack Blank { get; } = new(new Trail<ClimateSegment>());

    /// <summary>Until when the track is settled; null where it has not begun.</summary>
    public DateTimeOffset? SettledTo => Segments.Count == 0 ? null : Segments.Last.End;

    /// <summary>Settles what the probes have told since.</summary>
    /// <param name="watch">The probes.</param>
    /// <param name="now">The present.</param>
    /// <returns>The longer track, or this one where nothing more is settled.</returns>
    public ClimateTrack Extend(Watch watch, DateTimeOffset now)
    {
        if (watch.SettledTo(now) is not { } to || (SettledTo ?? watch.FirstAt) is not { } from)
        {
            return this;
        }

        Trail<ClimateSegment> segments = Segments;
        foreach (DateTimeOffset knot in watch.Knots(from, to))
        {
            segments = Followed(segments, watch, from, knot, now);
            from = knot;
        }

        return segments.Count == Segments.Count ? this : new ClimateTrack(segments);
    }

    /// <summary>Settles what the only probe has told since as it will be kept once it is old, so that less has to be followed; what is not whole yet waits.</summary>
    /// <param name="watch">The probes, for which <see cref="CoarseKnots"/> are enough.</param>
    /// <param name="until">How far at most.</param>
    /// <param name="now">The present.</param>
    /// <returns>The longer track.</returns>
    internal ClimateTrack ExtendCoarsely(Watch watch, DateTimeOffset until, DateTimeOffset now)
    {
        if (watch.SettledTo(now) is not { } settled || SettledTo is not { } from)
        {
            return this;
        }

        Trail<ClimateSegment> segments = Segments;
        foreach ((DateTimeOffset knot, Watch by) in CoarseKnots.Of(watch, from, settled < until ? settled : until))
        {
            segments = Followed(segments, by, from, knot, now);
            from = knot;
        }

        return segments.Count == Segments.Count ? this : new ClimateTrack(segments);
    }

    /// <summary>Finds again what was left open while a panel was waited for, now that it is heard again; all else stands.</summary>
    /// <param name="watch">The probes.</param>
    /// <param name="since">When the panel was heard before.</param>
    /// <param name="now">The present.</param>
    /// <returns>The track, cut into the same segments, and which of them were found again.</returns>
    internal (ClimateTrack Track, Range Found) Confirm(Watch watch, DateTimeOffset since, DateTimeOffset now)
    {
        int first = Segments.CountWhile((in s) => s.End <= since), next = first;
        Trail<ClimateSegment> segments = Segments.Take(first);
        for (; next < Segments.Count && Segments[next] is { Unseen: { IsPanelAwaited: true } open } segment; next++)
        {
            Unseen? found = watch.Over(segment.Start, segment.End, now)?.Unseen is { } unseen ? unseen with { Before = open.Before } : null;
            segments = segments.Append(segment with { Unseen = found, IsUnconfirmed = found is { IsPanelAwaited: true } });
        }

        if (next == first)
        {
            return (this, first..first);
        }

        for (int i = next; i < Segments.Count; i++)
        {
            segments = segments.Append(Segments[i]);
        }

        return (new ClimateTrack(segments), first..next);
    }

    /// <summary>Unsettles everything after an instant, since a late reading fell into it.</summary>
    /// <param name="instant">When the probe of the late reading was read before: up to there nothing changes.</param>
    /// <returns>The shorter track.</returns>
    /// <remarks>Never to a piece inside a stretch: built anew from there, the stretch would be cut up otherwise than from its beginning.</remarks>
    public ClimateTrack RewindTo(DateTimeOffset instant)
    {
        if (!(SettledTo > instant))
        {
            return this;
        }

        int kept = Segments.CountWhile(instant, static (in s, border) => s.End <= border);
        while (kept > 0 && Segments[kept - 1].GoesOn)
        {
            kept--;
        }

        return new ClimateTrack(Segments.Take(kept));
    }

    /// <summary>Lets go of the oldest part, and keeps what is settled for good by fewer segments.</summary>
    /// <param name="ages">How old is old.</param>
    /// <param name="borders">Indices of segments that stay the beginning of one.</param>
    /// <param name="instants">Segments at these instants stay as they are, so that what is read off there stays the same to the last digit.</param>
    /// <returns>The track, and which of the segments before became which.</returns>
    /// <remarks>Only what is seen becomes one, never a gap; where probes disagree, each opinion by itself.</remarks>
    public (ClimateTrack Track, TrackThinning Thinning) Thin(Ages ages, IEnumerable<int> borders, IEnumerable<DateTimeOffset> instants) =>
        TrackThinning.Of(Segments, ages, [.. borders, .. instants.SelectMany(Around)]);

    private IEnumerable<int> Around(DateTimeOffset instant) =>
        Enumerable.Range(Segments.CountWhile(instant, static (in s, border) => s.End < border), SegmentsAround);

    /// <summary>The climate between the settled end and the present: what is known of it, the newest values held.</summary>
    /// <param name="watch">The probes.</param>
    /// <param name="now">The present.</param>
    /// <returns>Segments that end now; none where the air was never measured, or is settled to the present.</returns>
    public IReadOnlyList<ClimateSegment> Provisional(Watch watch, DateTimeOffset now)
    {
        ClimateTrack reached = Extend(watch, now);
        if (ReferenceEquals(reached, this))
        {
            return Unsettled(watch, now);
        }

        // Time alone settles too: a probe that is missing for too long is waited for no more.
        IEnumerable<ClimateSegment> settledSince = Enumerable.Range(Segments.Count, reached.Segments.Count - Segments.Count)
            .Select(i => reached.Segments[i]);
        return [.. settledSince, .. reached.Unsettled(watch, now)];
    }

    private List<ClimateSegment> Unsettled(Watch watch, DateTimeOffset now)
    {
        if ((SettledTo ?? watch.FirstAt) is not { } from || from >= now)
        {
            return [];
        }

        var segments = new List<ClimateSegment>();
        List<DateTimeOffset> knots = watch.Knots(from, now);
        int most = KnotsFollowedPerProbe * (watch.Air.Length + watch.Awaited.Length);
        bool isCut = knots.Count > most && watch.IsLostAt(now);
        if (isCut)
        {
            knots.RemoveRange(most, knots.Count - most);
        }

        if (knots.Count == 0 || knots[^1] < now)
        {
            knots.Add(now);
        }

        ClimateSegment? before = Segments.Count > 0 ? Segments.Last : null;
        foreach (DateTimeOffset knot in knots)
        {
            if (watch.Over(from, knot, now) is { } target)
            {
                bool holdsReadings = isCut && knot == now;
                target = holdsReadings ? target with { Unseen = target.Unseen is { } unseen ? unseen with { IsDark = false } : null } : target;
                foreach (ClimateSegment piece in PanelCourse.Along(watch, target, before))
                {
                    segments.Add(piece with { IsUnconfirmed = knot > watch.ConfirmedTo(now) || piece.Unseen is { IsPanelAwaited: true } });
                    before = piece;
                }
            }
            else if (before is { } last)
            {
                before = ClimateSegment.Unmeasured(from, knot, last.AtEnd, watch.Over(knot, knot, now)?.AtStart);
                segments.Add(before.Value);
            }

            from = knot;
        }

        return segments;
    }

    /// <summary>The exposure at an instant.</summary>
    /// <param name="instant">The instant, inside the track or at one of its ends.</param>
    /// <returns>The exposure.</returns>
    public Exposure ExposureAt(DateTimeOffset instant) =>
        Segments[Math.Min(Segments.Count - 1, Segments.CountWhile(instant, static (in s, border) => s.End < border))].ExposureAt(instant);

    private static Trail<ClimateSegment> Followed(Trail<ClimateSegment> segments, Watch watch, DateTimeOffset from, DateTimeOffset knot, DateTimeOffset now)
    {
        if (watch.Over(from, knot, now) is { } target)
        {
            foreach (ClimateSegment piece in PanelCourse.Along(watch, target, segments.Count > 0 ? segments.Last : null))
            {
                segments = segments.Append(piece with { IsUnconfirmed = piece.Unseen is { IsPanelAwaited: true } });
            }
        }
        else if (segments.Count > 0)
        {
            segments = segments.Append(ClimateSegment.Unmeasured(from, knot, segments.Last.AtEnd, watch.Over(knot, knot, now)?.AtStart));
        }

        return segments;
    }
}
