using System.Buffers.Binary;

namespace CureWatch.Service.Journal;

/// <summary>
/// How a frame lies on disk, little-endian: [length of the body: 4][CRC-32C of the body: 4], then the body
/// [sequence: 8][instant in UTC ticks: 8][kind: 1][version: 1][payload].
/// </summary>
internal static class FrameFormat
{
    public const int PrefixBytes = 8;
    public const int FixedBodyBytes = 18;

    /// <summary>Far above the largest document a person writes, far below what a flipped bit would ask for.</summary>
    public const int LongestBodyBytes = 16 * 1024 * 1024;

    /// <summary>Completes a frame whose payload is already in its place.</summary>
    /// <param name="frame">The whole frame; everything before the payload is written.</param>
    /// <param name="sequence">Its number.</param>
    /// <param name="at">Its instant.</param>
    /// <param name="kind">Its kind.</param>
    /// <param name="version">Its payload's version.</param>
    public static void Complete(Span<byte> frame, long sequence, DateTimeOffset at, EntryKind kind, byte version)
    {
        Span<byte> body = frame[PrefixBytes..];
        BinaryPrimitives.WriteInt64LittleEndian(body, sequence);
        BinaryPrimitives.WriteInt64LittleEndian(body[8..], at.UtcTicks);
        body[16] = (byte)kind;
        body[17] = version;
        BinaryPrimitives.WriteInt32LittleEndian(frame, body.Length);
        BinaryPrimitives.WriteUInt32LittleEndian(frame[4..], Crc32C.Of(body));
    }

    /// <summary>Reads the frame that begins here.</summary>
    /// <returns>How many bytes it takes; 0 where no whole, sound frame begins here.</returns>
    public static int TryRead(ReadOnlyMemory<byte> bytes, out Frame frame)
    {
        frame = default;
        ReadOnlySpan<byte> span = bytes.Span;
        if (span.Length < PrefixBytes + FixedBodyBytes)
        {
            return 0;
        }

        int length = BinaryPrimitives.ReadInt32LittleEndian(span);
        if (length is < FixedBodyBytes or > LongestBodyBytes || length > span.Length - PrefixBytes)
        {
            return 0;
        }

        ReadOnlySpan<byte> body = span.Slice(PrefixBytes, length);
        long ticks = BinaryPrimitives.ReadInt64LittleEndian(body[8..]);
        if (BinaryPrimitives.ReadUInt32LittleEndian(span[4..]) != Crc32C.Of(body) || ticks < 0 || ticks > DateTime.MaxValue.Ticks)
        {
            return 0;
        }

        frame = new Frame(
            BinaryPrimitives.ReadInt64LittleEndian(body),
            new DateTimeOffset(ticks, TimeSpan.Zero),
            (EntryKind)body[16],
            body[17],
            bytes.Slice(PrefixBytes + FixedBodyBytes, length - FixedBodyBytes));
        return PrefixBytes + length;
    }
}
