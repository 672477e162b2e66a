namespace CureWatch.Service.Journal;

/// <summary>Where a journal that was read ends.</summary>
/// <param name="JournalId">Its id; null where there is no segment yet.</param>
/// <param name="Last">The number of its last frame; 0 where there is none.</param>
/// <param name="LastAt">The instant of its last frame.</param>
/// <param name="Segment">Its last segment; null where there is none yet.</param>
/// <param name="Form">The form of that segment's frames.</param>
/// <param name="Bytes">How long the sound part of that segment is.</param>
/// <param name="TornBytes">How many bytes of an unfinished batch follow it: never acknowledged, to be cut off.</param>
/// <param name="IsSealed">Whether that segment is full and sealed.</param>
/// <param name="PreviousHash">SHA-256 of the last sealed segment; empty where there is none, null where it is not what was sealed.</param>
internal sealed record JournalEnd(
    byte[]? JournalId, long Last, DateTimeOffset LastAt, Segment? Segment, int Form, long Bytes, long TornBytes, bool IsSealed, string? PreviousHash)
{
    public static JournalEnd Empty { get; } = new(null, 0, DateTimeOffset.MinValue, null, FrameFormat.Newest, 0, 0, false, "");
}
