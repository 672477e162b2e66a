namespace CureWatch.Service.Journal;

/// <summary>
/// What an orderly stop leaves behind everything else, in a batch of its own: with a sound frame behind it, no entry that is not as it was
/// written can pass for a write that was cut off.
/// </summary>
internal static class ClosingMark
{
    private static ReadOnlySpan<byte> Payload => "closed"u8;

    private static int Length => FrameFormat.PrefixBytes + FrameFormat.FixedBodyBytes(FrameFormat.Newest) + Payload.Length;

    /// <summary>The mark's whole frame, every byte of which is known beforehand.</summary>
    /// <param name="sequence">Its number.</param>
    /// <param name="at">The instant of the entry before.</param>
    public static byte[] Frame(long sequence, DateTimeOffset at)
    {
        byte[] frame = new byte[Length];
        Payload.CopyTo(frame.AsSpan()[^Payload.Length..]);
        var header = new Frame(sequence, at, EntryKind.JournalClosed, EntryCodec.VersionOf(new Entry.JournalClosed()), sequence, EndsBatch: true, default);
        FrameFormat.Complete(frame, FrameFormat.Newest, header);
        return frame;
    }

    /// <summary>Whether this was a mark, and one byte of it is another now. A write that was cut off leaves that only as a zero at an end.</summary>
    public static bool IsHurt(ReadOnlySpan<byte> tail, long sequence, DateTimeOffset at)
    {
        if (tail.Length != Length)
        {
            return false;
        }

        ReadOnlySpan<byte> whole = Frame(sequence, at);
        int first = tail.CommonPrefixLength(whole);
        bool isCutOff = (first == 0 || first == Length - 1) && tail[first] == 0;
        return first < Length && !isCutOff && tail[(first + 1)..].SequenceEqual(whole[(first + 1)..]);
    }
}
