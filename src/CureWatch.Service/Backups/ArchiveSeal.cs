using System.Buffers.Binary;
using System.Security.Cryptography;
using System.Text;

namespace CureWatch.Service.Backups;

/// <summary>
/// The last words of a backup, in the comment that ends a zip file: SHA-256 of every byte before them. Checksums of the entries say nothing of
/// the bytes between them, and a file that was cut short has no end.
/// </summary>
internal static class ArchiveSeal
{
    /// <summary>The comment while the digest is not known yet.</summary>
    public static readonly string Blank = Words + new string('0', DigestLength);

    private const string Words = "curewatch backup sha256 ";
    private const int DigestLength = 64;

    /// <summary>The end record before the comment. Source (law): APPNOTE.TXT 6.3.10, section 4.3.16.</summary>
    private const int EndRecordBytes = 22;
    private const uint EndRecordMark = 0x06054b50;
    private const uint LocatorMark = 0x07064b50;
    private const int LocatorBytes = 20;

    /// <summary>Writes the digest in where it belongs, once all else is written.</summary>
    /// <returns>The digest, in lower-case hexadecimal.</returns>
    public static string Set(Stream file)
    {
        string digest = DigestBeforeIt(file);
        file.Position = file.Length - DigestLength;
        file.Write(Encoding.ASCII.GetBytes(digest));
        return digest;
    }

    /// <returns>What a file says of itself at its end; null where it does not end like a backup.</returns>
    public static string? Of(Stream file)
    {
        Span<byte> end = stackalloc byte[EndRecordBytes + Blank.Length];
        if (file.Length < end.Length)
        {
            return null;
        }

        file.Position = file.Length - end.Length;
        file.ReadExactly(end);
        bool isWhole = BinaryPrimitives.ReadUInt32LittleEndian(end) == EndRecordMark
            && BinaryPrimitives.ReadUInt16LittleEndian(end[20..]) == Blank.Length
            && Encoding.ASCII.GetString(end[EndRecordBytes..]) is var comment
            && comment.StartsWith(Words, StringComparison.Ordinal);
        return isWhole ? Encoding.ASCII.GetString(end[^DigestLength..]) : null;
    }

    public static string DigestBeforeIt(Stream file)
    {
        file.Position = 0;
        using var hash = IncrementalHash.CreateHash(HashAlgorithmName.SHA256);
        byte[] buffer = new byte[128 * 1024];
        for (long rest = file.Length - DigestLength; rest > 0;)
        {
            int read = file.Read(buffer, 0, (int)Math.Min(buffer.Length, rest));
            if (read == 0)
            {
                throw new EndOfStreamException("It became shorter while it was read.");
            }

            hash.AppendData(buffer, 0, read);
            rest -= read;
        }

        return Convert.ToHexStringLower(hash.GetHashAndReset());
    }

    /// <returns>How long the list of entries before the end record is at most; the store reads all of it into memory.</returns>
    public static long DirectoryBytes(Stream file)
    {
        Span<byte> end = stackalloc byte[EndRecordBytes];
        long at = file.Length - EndRecordBytes - Blank.Length;
        file.Position = at;
        file.ReadExactly(end);
        uint start = BinaryPrimitives.ReadUInt32LittleEndian(end[16..]);
        return start != uint.MaxValue ? at - start : at - LongStart(file, at);
    }

    /// <returns>Where the list of entries begins in a file beyond 4 GB.</returns>
    private static long LongStart(Stream file, long endRecord)
    {
        Span<byte> locator = stackalloc byte[LocatorBytes];
        Span<byte> start = stackalloc byte[sizeof(long)];
        file.Position = Math.Max(0, endRecord - LocatorBytes);
        file.ReadExactly(locator);
        long record = BinaryPrimitives.ReadInt64LittleEndian(locator[8..]);
        if (BinaryPrimitives.ReadUInt32LittleEndian(locator) != LocatorMark || record < 0 || record > file.Length - 56)
        {
            return 0;   // the store will not find it either
        }

        file.Position = record + 48;
        file.ReadExactly(start);
        return Math.Max(0, BinaryPrimitives.ReadInt64LittleEndian(start));
    }
}
