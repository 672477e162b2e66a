namespace CureWatch.Service.Journal;

/// <summary>An entry as it lies in the journal.</summary>
/// <param name="Sequence">Its number, from 1, without a gap.</param>
/// <param name="At">Its instant, never before the one of the frame before.</param>
/// <param name="Kind">Its kind.</param>
/// <param name="Version">The version of its payload's form.</param>
/// <param name="Batch">The number of the first frame of its batch: what was brought onto the disk at once.</param>
/// <param name="EndsBatch">Whether it is the last of its batch.</param>
/// <param name="Payload">The encoded entry.</param>
internal readonly record struct Frame(
    long Sequence, DateTimeOffset At, EntryKind Kind, byte Version, long Batch, bool EndsBatch, ReadOnlyMemory<byte> Payload);
