using System.Buffers.Binary;
using CureWatch.Service.Disk;

namespace CureWatch.Service.Journal;

/// <summary>
/// One file of the journal: a header, then frames. Its name is the number of its first frame. The header, little-endian:
/// [mark: 8][form of its frames: 4][journal: 16][first sequence: 8][CRC-32C of all before: 4].
/// </summary>
/// <param name="Path">The file.</param>
/// <param name="First">The number of its first frame.</param>
internal readonly record struct Segment(string Path, long First)
{
    public const int HeaderBytes = 40;
    public const int JournalIdBytes = 16;

    private const string Ending = ".journal";

    private static ReadOnlySpan<byte> Mark => "cwjournl"u8;

    /// <summary>Every segment of a folder, in order.</summary>
    public static IReadOnlyList<Segment> In(IDisk disk, string folder) =>
    [
        .. from file in disk.NamesIn(folder)
           let first = EntryName.In(file, Ending)
           where first is not null
           orderby first
           select new Segment(System.IO.Path.Combine(folder, file), first.Value),
    ];

    /// <summary>The segment that begins with a frame.</summary>
    public static Segment Named(string folder, long first) =>
        new(System.IO.Path.Combine(folder, EntryName.Of(first) + Ending), first);

    public static byte[] Header(ReadOnlySpan<byte> journalId, long first)
    {
        byte[] header = new byte[HeaderBytes];
        Mark.CopyTo(header);
        BinaryPrimitives.WriteInt32LittleEndian(header.AsSpan(8), FrameFormat.Newest);
        journalId.CopyTo(header.AsSpan(12));
        BinaryPrimitives.WriteInt64LittleEndian(header.AsSpan(28), first);
        BinaryPrimitives.WriteUInt32LittleEndian(header.AsSpan(36), Crc32C.Of(header.AsSpan(0, 36)));
        return header;
    }

    /// <returns>The form of its frames and the id of the journal, or null where this is no sound header of that segment.</returns>
    public static (int Form, byte[] JournalId)? HeaderIn(ReadOnlySpan<byte> header, long first) =>
        header.Length >= HeaderBytes
        && header[..8].SequenceEqual(Mark)
        && BinaryPrimitives.ReadInt32LittleEndian(header[8..]) is >= 1 and <= FrameFormat.Newest and var form
        && BinaryPrimitives.ReadInt64LittleEndian(header[28..]) == first
        && BinaryPrimitives.ReadUInt32LittleEndian(header[36..]) == Crc32C.Of(header[..36])
            ? (form, header.Slice(12, JournalIdBytes).ToArray())
            : null;
}
