using System.Buffers;
using System.Security.Cryptography;
using CureWatch.Service.Disk;

namespace CureWatch.Service.Journal;

/// <summary>
/// Appends entries to the journal. What is appended lies in memory until it is flushed, in one write and one fsync; only then may anybody be
/// told of it.
/// </summary>
internal sealed class JournalWriter : IDisposable
{
    /// <summary>A full segment is sealed. Source (choice): small enough to read whole, some weeks of a shop.</summary>
    public const long UsualSegmentBytes = 32 * 1024 * 1024;

    private readonly IDisk _disk;
    private readonly string _folder;
    private readonly EntryCodec _codec;
    private readonly long _segmentBytes;
    private readonly byte[] _journalId;
    private readonly ArrayBufferWriter<byte> _payload = new();
    private readonly ArrayBufferWriter<byte> _pending = new();
    private readonly IncrementalHash _hash = IncrementalHash.CreateHash(HashAlgorithmName.SHA256);
    private IDiskFile? _file;
    private long _length;
    private long _firstPending;
    private string _previousHash;

    /// <summary>Goes on where a journal that was read ends; an unfinished write behind it is cut off.</summary>
    public JournalWriter(IDisk disk, string folder, EntryCodec codec, JournalEnd end, long segmentBytes = UsualSegmentBytes)
    {
        (_disk, _folder, _codec, _segmentBytes) = (disk, folder, codec, segmentBytes);
        _journalId = end.JournalId ?? RandomNumberGenerator.GetBytes(Segment.JournalIdBytes);
        (Last, LastAt, _previousHash) = (end.Last, end.LastAt, end.PreviousHash ?? throw new ArgumentException("The journal is damaged.", nameof(end)));
        _firstPending = Last + 1;
        if (end is { Segment: { } segment, IsSealed: false })
        {
            Reopen(segment, end);
        }
    }

    /// <summary>The number of the last entry appended.</summary>
    public long Last { get; private set; }

    /// <summary>The instant of the last entry appended.</summary>
    public DateTimeOffset LastAt { get; private set; }

    /// <summary>Appends an entry in memory.</summary>
    /// <param name="entry">The entry.</param>
    /// <param name="at">The present; an instant before the last entry's is taken as that.</param>
    public void Append(Entry entry, DateTimeOffset at)
    {
        _payload.ResetWrittenCount();
        EntryKind kind = _codec.Write(entry, _payload);
        int length = FrameFormat.PrefixBytes + FrameFormat.FixedBodyBytes + _payload.WrittenCount;
        Span<byte> frame = _pending.GetSpan(length)[..length];
        _payload.WrittenSpan.CopyTo(frame[(FrameFormat.PrefixBytes + FrameFormat.FixedBodyBytes)..]);
        LastAt = at > LastAt ? at : LastAt;
        FrameFormat.Complete(frame, ++Last, LastAt, kind, EntryCodec.VersionOf(entry));
        _pending.Advance(length);
    }

    /// <summary>Brings what was appended onto the disk.</summary>
    /// <exception cref="IOException">It may not be on the disk: nothing of it may be acknowledged, and nothing more appended.</exception>
    public void Flush()
    {
        if (_pending.WrittenCount == 0)
        {
            return;
        }

        _file ??= Begin(_firstPending);
        Write(_pending.WrittenSpan);
        _file.Flush();
        _pending.ResetWrittenCount();
        if (_length >= _segmentBytes)
        {
            Seal();
        }

        _firstPending = Last + 1;
    }

    public void Dispose()
    {
        _file?.Dispose();
        _hash.Dispose();
    }

    private void Reopen(Segment segment, JournalEnd end)
    {
        if (end.Bytes == 0)
        {
            _disk.Delete(segment.Path);
            return;
        }

        _hash.AppendData(DurableFile.Read(_disk, segment.Path).AsSpan(0, (int)end.Bytes));
        _file = _disk.Open(segment.Path, FileUse.Write);
        _length = end.Bytes;
        _file.SetLength(_length);
        _file.Flush();
    }

    private IDiskFile Begin(long first)
    {
        _file = _disk.Open(Segment.Named(_folder, first).Path, FileUse.Make);
        _length = 0;
        Write(Segment.Header(_journalId, first));
        _file.Flush();
        _disk.FlushFolder(_folder);
        return _file;
    }

    private void Write(ReadOnlySpan<byte> bytes)
    {
        _file!.Write(bytes, _length);
        _hash.AppendData(bytes);
        _length += bytes.Length;
    }

    private void Seal()
    {
        Append(new Entry.SegmentSealed(_previousHash, Convert.ToHexStringLower(_hash.GetCurrentHash())), LastAt);
        Write(_pending.WrittenSpan);
        _file!.Flush();
        _pending.ResetWrittenCount();
        _previousHash = Convert.ToHexStringLower(_hash.GetHashAndReset());
        _file!.Dispose();
        _file = null;
    }
}
