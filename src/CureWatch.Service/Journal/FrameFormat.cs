using System.Buffers.Binary;

namespace CureWatch.Service.Journal;

/// <summary>
/// How a frame lies on disk, little-endian: [length of the body: 4][CRC-32C of the body: 4], then the body
/// [sequence: 8][instant in UTC ticks: 8][kind: 1][version: 1][place: 4][payload]. The place is how many frames of its batch lie before it; its highest
/// bit says that none follows. Segments of the first form lack the place: there every frame counts as a batch of its own.
/// </summary>
internal static class FrameFormat
{
    public const int PrefixBytes = 8;

    /// <summary>The form of every new segment.</summary>
    public const int Newest = 2;

    /// <summary>Far above the largest document a person writes, far below what a flipped bit would ask for.</summary>
    public const int LongestBodyBytes = 16 * 1024 * 1024;

    private const int PlaceAt = 18;
    private const uint EndsBatchBit = 1u << 31;

    /// <summary>How long the body is before its payload.</summary>
    public static int FixedBodyBytes(int form) => form == 1 ? PlaceAt : PlaceAt + sizeof(uint);

    /// <summary>Completes a frame whose payload is already in its place.</summary>
    /// <param name="frame">The whole frame; everything before the payload is written.</param>
    /// <param name="form">The form of its segment.</param>
    /// <param name="header">What it says of itself; the payload is not looked at.</param>
    public static void Complete(Span<byte> frame, int form, in Frame header)
    {
        Span<byte> body = frame[PrefixBytes..];
        BinaryPrimitives.WriteInt64LittleEndian(body, header.Sequence);
        BinaryPrimitives.WriteInt64LittleEndian(body[8..], header.At.UtcTicks);
        body[16] = (byte)header.Kind;
        body[17] = header.Version;
        if (form > 1)
        {
            uint place = (uint)(header.Sequence - header.Batch);
            BinaryPrimitives.WriteUInt32LittleEndian(body[PlaceAt..], header.EndsBatch ? place | EndsBatchBit : place);
        }

        BinaryPrimitives.WriteInt32LittleEndian(frame, body.Length);
        BinaryPrimitives.WriteUInt32LittleEndian(frame[4..], Crc32C.Of(body));
    }

    /// <summary>Makes a complete frame the last one of its batch.</summary>
    public static void EndBatch(Span<byte> frame, int form)
    {
        if (form > 1)
        {
            Span<byte> body = frame[PrefixBytes..];
            uint place = BinaryPrimitives.ReadUInt32LittleEndian(body[PlaceAt..]);
            BinaryPrimitives.WriteUInt32LittleEndian(body[PlaceAt..], place | EndsBatchBit);
            BinaryPrimitives.WriteUInt32LittleEndian(frame[4..], Crc32C.Of(body));
        }
    }

    /// <summary>Reads the frame that begins here.</summary>
    /// <returns>How many bytes it takes; 0 where no whole, sound frame begins here.</returns>
    public static int TryRead(ReadOnlyMemory<byte> bytes, int form, out Frame frame)
    {
        frame = default;
        int fixedBytes = FixedBodyBytes(form);
        ReadOnlySpan<byte> span = bytes.Span;
        if (span.Length < PrefixBytes + fixedBytes)
        {
            return 0;
        }

        int length = BinaryPrimitives.ReadInt32LittleEndian(span);
        if (length < fixedBytes || length > LongestBodyBytes || length > span.Length - PrefixBytes)
        {
            return 0;
        }

        ReadOnlySpan<byte> body = span.Slice(PrefixBytes, length);
        long ticks = BinaryPrimitives.ReadInt64LittleEndian(body[8..]);
        if (BinaryPrimitives.ReadUInt32LittleEndian(span[4..]) != Crc32C.Of(body) || ticks < 0 || ticks > DateTime.MaxValue.Ticks)
        {
            return 0;
        }

        long sequence = BinaryPrimitives.ReadInt64LittleEndian(body);
        uint place = form == 1 ? EndsBatchBit : BinaryPrimitives.ReadUInt32LittleEndian(body[PlaceAt..]);
        frame = new Frame(
            sequence,
            new DateTimeOffset(ticks, TimeSpan.Zero),
            (EntryKind)body[16],
            body[17],
            sequence - (place & ~EndsBatchBit),
            (place & EndsBatchBit) != 0,
            bytes.Slice(PrefixBytes + fixedBytes, length - fixedBytes));
        return PrefixBytes + length;
    }
}
