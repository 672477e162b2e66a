using System.Runtime.CompilerServices;
using System.Security.Cryptography;
using CureWatch.Service.Disk;

namespace CureWatch.Service.Journal;

/// <summary>Looks whether the full segments of a journal still are what was sealed, piece by piece, beside a service that writes on.</summary>
/// <remarks>
/// A start from a snapshot reads none of them. Each byte counts: the seal names the digest of all before it and has a checksum of its own, and the next
/// one's names the digest of the whole. At which frame it is damaged only <see cref="JournalReader"/> says, which reads a segment into memory as one.
/// </remarks>
/// <param name="disk">The disk.</param>
/// <param name="folder">The journal's folder.</param>
/// <param name="rest">Called after each piece with how long it was, for as long as the next one is to wait.</param>
internal sealed class SealedSegments(IDisk disk, string folder, Func<int, CancellationToken, Task> rest)
{
    /// <summary>How much is read at once. Source (choice): no more than anybody behind it waits for.</summary>
    private const int PieceBytes = 256 * 1024;

    /// <summary>A seal has two digests and their names: far less than this.</summary>
    private const int TailBytes = 4096;

    /// <summary>Looks at every segment that another follows, in order.</summary>
    /// <param name="only">The first entries of those to look at; null for all.</param>
    /// <param name="cancelled">Cancelled where it has to end.</param>
    /// <returns>Each that was looked at.</returns>
    public async IAsyncEnumerable<SealedSegment> LookAsync(IReadOnlySet<long>? only, [EnumeratorCancellation] CancellationToken cancelled)
    {
        IReadOnlyList<Segment> segments = Segment.In(disk, folder);
        JournalEnd before = RetiredPart.Before(disk, folder, segments);
        for (int i = 0; i + 1 < segments.Count; i++)
        {
            (Segment segment, long next) = (segments[i], segments[i + 1].First);
            bool isWanted = only?.Contains(segment.First) != false;
            string? wrong = null, hash = null;
            if (isWanted || only!.Contains(next))
            {
                (wrong, hash, byte[]? journal) = await ReadAsync(segment, next, before, cancelled).ConfigureAwait(false);
                before = before with { JournalId = before.JournalId ?? journal };
            }

            before = before with { Last = next - 1, PreviousHash = hash };
            if (isWanted && (wrong is null || disk.Exists(segment.Path)))
            {
                yield return new SealedSegment(segment, next - 1, wrong); // unless it was retired meanwhile
            }
        }
    }

    private async Task<(string? Wrong, string? Hash, byte[]? Journal)> ReadAsync(Segment segment, long next, JournalEnd before, CancellationToken cancelled)
    {
        try
        {
            using IDiskFile file = disk.Open(segment.Path, FileUse.Read);
            byte[] header = new byte[Segment.HeaderBytes];
            if (file.Read(header, 0) < header.Length || Segment.HeaderIn(header, segment.First) is not var (form, journal))
            {
                return ("it has no header of a journal segment", null, null);
            }

            if (before.JournalId?.AsSpan().SequenceEqual(journal) == false || segment.First != before.Last + 1)
            {
                return ($"it does not follow entry {before.Last} of this journal", null, null);
            }

            if (SealOf(file, form) is not var (at, frame, seal))
            {
                return ("it does not end with its seal", null, journal);
            }

            using var hash = IncrementalHash.CreateHash(HashAlgorithmName.SHA256);
            await ReadAsync(file, hash, 0, at, cancelled).ConfigureAwait(false);
            bool isSound = Convert.ToHexStringLower(hash.GetCurrentHash()) == seal.Content && seal.Follows(before.PreviousHash);
            await ReadAsync(file, hash, at, file.Length, cancelled).ConfigureAwait(false);
            return !isSound ? ("it is not what was sealed", null, journal)
                : frame.Sequence + 1 != next ? ($"it ends with entry {frame.Sequence}, and what is here goes on with {next}", null, journal)
                : (null, Convert.ToHexStringLower(hash.GetHashAndReset()), journal);
        }
        catch (Exception e) when (e is IOException or UnauthorizedAccessException)
        {
            return ($"it cannot be read: {e.Message}", null, null);
        }
    }

    private async Task ReadAsync(IDiskFile file, IncrementalHash hash, long from, long to, CancellationToken cancelled)
    {
        byte[] piece = new byte[PieceBytes];
        while (from < to)
        {
            int read = file.Read(piece.AsSpan(0, (int)Math.Min(piece.Length, to - from)), from);
            if (read == 0)
            {
                throw new EndOfStreamException("it became shorter while it was read");
            }

            hash.AppendData(piece, 0, read);
            from += read;
            await rest(read, cancelled).ConfigureAwait(false);
        }
    }

    /// <returns>The seal that a file ends with, and where its frame begins; null where none does.</returns>
    private static (long At, Frame Frame, Entry.SegmentSealed Seal)? SealOf(IDiskFile file, int form)
    {
        long start = Math.Max(Segment.HeaderBytes, file.Length - TailBytes);
        byte[] tail = new byte[Math.Max(0, file.Length - start)];
        int length = file.Read(tail, start);
        for (int i = 0; i < length; i++)
        {
            if (FrameFormat.TryRead(tail.AsMemory(i..length), form, out Frame frame) == length - i && frame.Kind == EntryKind.SegmentSealed)
            {
                return EntryCodec.FindSeal(frame) is { } seal ? (start + i, frame, seal) : null;
            }
        }

        return null;
    }
}

/// <summary>A full segment that was looked at.</summary>
/// <param name="Segment">The segment.</param>
/// <param name="Last">The number of the last entry it has to hold.</param>
/// <param name="Wrong">What is wrong with it; null where it is as it was sealed.</param>
internal sealed record SealedSegment(Segment Segment, long Last, string? Wrong);
