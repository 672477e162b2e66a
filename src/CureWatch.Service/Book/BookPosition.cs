namespace CureWatch.Service.Book;

/// <summary>How far the book has followed the journal.</summary>
/// <param name="Sequence">The number of the last entry in it; 0 before the first.</param>
/// <param name="At">The instant of that entry.</param>
/// <param name="ReadingsThrough">
/// The number of the entry up to which every reading is in it. On disk that may be an earlier one: the open blocks are stored only now and
/// then, and what they lack is read from the journal again.
/// </param>
internal sealed record BookPosition(long Sequence, DateTimeOffset At, long ReadingsThrough)
{
    public static BookPosition Start { get; } = new(0, DateTimeOffset.UnixEpoch, 0);

    /// <summary>The entry after which it reads the journal on: its own last is read once more, by which it is seen whether the two belong together.</summary>
    public long Level => Math.Max(0, Math.Min(ReadingsThrough, Sequence - 1));
}
