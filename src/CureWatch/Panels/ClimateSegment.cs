namespace CureWatch.Panels;

/// <summary>A stretch of time in which a surface's exposure runs straight from one value to another.</summary>
/// <param name="Start">Its start.</param>
/// <param name="End">Its end, after the start.</param>
/// <param name="AtStart">Exposure at the start.</param>
/// <param name="AtEnd">Exposure at the end.</param>
/// <param name="Unseen">What nobody measured in between; null where readings are close enough for either clock.</param>
/// <remarks>The default is an empty stretch at the beginning of time.</remarks>
public readonly record struct ClimateSegment(
    DateTimeOffset Start, DateTimeOffset End, Exposure AtStart, Exposure AtEnd, Unseen? Unseen)
{
    /// <summary>How long it lasts [h].</summary>
    public double Hours => (End - Start).TotalHours;

    /// <summary>The part of the segment between two instants.</summary>
    /// <param name="from">Not before the segment's start.</param>
    /// <param name="to">Not after the segment's end, and after <paramref name="from"/>.</param>
    /// <returns>A segment of its own.</returns>
    public ClimateSegment Between(DateTimeOffset from, DateTimeOffset to) =>
        from == Start && to == End ? this : this with { Start = from, End = to, AtStart = ExposureAt(from), AtEnd = ExposureAt(to) };

    /// <summary>The exposure at an instant.</summary>
    /// <param name="instant">The instant, inside the segment or at one of its ends.</param>
    /// <returns>The exposure.</returns>
    public Exposure ExposureAt(DateTimeOffset instant) => AtStart.Towards(AtEnd, (instant - Start) / (End - Start));
}
