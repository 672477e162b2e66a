namespace CureWatch.Service.Journal;

/// <summary>How far a journal is that is being appended to, to come back to.</summary>
/// <param name="Bytes">How much waits for the disk [bytes].</param>
/// <param name="FrameAt">Where in that the last frame begins.</param>
/// <param name="Last">The number of the last entry.</param>
/// <param name="LastAt">The instant of the last entry.</param>
internal readonly record struct JournalMark(int Bytes, int FrameAt, long Last, DateTimeOffset LastAt);
