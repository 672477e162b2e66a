using CureWatch.Panels;

namespace CureWatch.Curing;

/// <summary>What every law sees of the newest segments of a track, worked out once for all of them.</summary>
/// <param name="track">The track.</param>
/// <param name="first">The index of the first of those segments; what lies before is worked out whenever it is asked for.</param>
public sealed class Courses(ClimateTrack track, int first)
{
    private readonly SegmentCourse?[] _known = new SegmentCourse?[track.Segments.Count - first];

    /// <summary>The course of a segment.</summary>
    /// <param name="index">The segment's index.</param>
    /// <returns>The course.</returns>
    public SegmentCourse Of(int index) => index < first
        ? SegmentCourse.Of(track.Segments[index])
        : _known[index - first] ??= SegmentCourse.Of(track.Segments[index]);
}
