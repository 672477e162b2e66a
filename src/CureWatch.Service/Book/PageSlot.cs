using System.Buffers.Binary;
using CureWatch.Service.Disk;
using CureWatch.Service.Journal;

namespace CureWatch.Service.Book;

/// <summary>A page of the store as it is in a file: with its place behind it, and a checksum over both.</summary>
/// <remarks>The store's own pages carry none: of a byte that a disk lost, nobody would hear but who reads a wrong number.</remarks>
internal static class PageSlot
{
    /// <summary>How long a page is. Source (law): the store's file format.</summary>
    public const int PageBytes = 8192;

    /// <summary>How long a page is in a file.</summary>
    public const int Bytes = SealedBytes + sizeof(uint);

    private const int SealedBytes = PageBytes + sizeof(long);

    /// <returns>The page at a place of the store's stream.</returns>
    public static long PageAt(long position, int count) => position % PageBytes == 0 && count == PageBytes
        ? position / PageBytes
        : throw new NotSupportedException("The book is read and written by whole pages.");

    /// <summary>Writes place and checksum behind a page.</summary>
    public static void Seal(Span<byte> slot, long page)
    {
        BinaryPrimitives.WriteInt64LittleEndian(slot[PageBytes..], page);
        BinaryPrimitives.WriteUInt32LittleEndian(slot[SealedBytes..], Crc32C.Of(slot[..SealedBytes]));
    }

    /// <summary>Reads a page with what is behind it.</summary>
    /// <returns>Whether it is what was written there.</returns>
    public static bool TryRead(IDiskFile file, long page, Span<byte> slot) =>
        file.Read(slot[..Bytes], page * Bytes) == Bytes
        && BinaryPrimitives.ReadInt64LittleEndian(slot[PageBytes..]) == page
        && BinaryPrimitives.ReadUInt32LittleEndian(slot[SealedBytes..]) == Crc32C.Of(slot[..SealedBytes]);
}
