using System.Buffers;
using System.Runtime.InteropServices;
using System.Security.Cryptography;
using CureWatch.Service.Disk;

namespace CureWatch.Service.Journal;

/// <summary>
/// Appends entries to the journal. What is appended lies in memory until it is flushed, in one write and one fsync; only then may anybody be
/// told of it.
/// </summary>
/// <remarks>
/// Where that fails, nobody knows what is on the disk behind the last flush, and asking the file would not tell: what was written may be dropped from
/// memory without ever having reached the disk. So the file is opened anew and cut off there before anything more is written.
/// </remarks>
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

    /// <summary>What the disk has: where to come back to.</summary>
    private JournalMark _flushed;

    /// <summary>Where the last frame of what waits for the disk begins.</summary>
    private int _frameAt;

    private Segment? _segment;
    private IDiskFile? _file;
    private int _form = FrameFormat.Newest;

    /// <summary>How long the segment is up to the last flush; 0 where not even its header is on the disk.</summary>
    private long _length;

    /// <summary>Null while the segment before is not what was sealed.</summary>
    private string? _previousHash;

    /// <summary>Whether nobody knows what the segment holds behind that.</summary>
    private bool _isDoubtful;

    /// <summary>Goes on where a journal that was read ends; an unfinished write behind it is cut off.</summary>
    public JournalWriter(IDisk disk, string folder, EntryCodec codec, JournalEnd end, long segmentBytes = UsualSegmentBytes)
    {
        (_disk, _folder, _codec, _segmentBytes) = (disk, folder, codec, segmentBytes);
        _journalId = end.JournalId ?? RandomNumberGenerator.GetBytes(Segment.JournalIdBytes);
        _previousHash = end.PreviousHash;
        _flushed = new JournalMark(0, 0, end.Last, end.LastAt);
        Forget();
        if (end is { Segment: { } segment, IsSealed: false })
        {
            (_segment, _length, _form) = (segment, end.Bytes, end.Bytes > 0 ? end.Form : FrameFormat.Newest); // one that was cut off at its birth begins anew
            Reopen();
            if (_form != FrameFormat.Newest)
            {
                Flush(isFull: true);
            }
        }
    }

    /// <summary>The number of the last entry appended.</summary>
    public long Last { get; private set; }

    /// <summary>The instant of the last entry appended.</summary>
    public DateTimeOffset LastAt { get; private set; }

    /// <summary>How far it is now.</summary>
    public JournalMark Mark => new(_pending.WrittenCount, _frameAt, Last, LastAt);

    /// <summary>Appends an entry in memory.</summary>
    /// <param name="entry">The entry.</param>
    /// <param name="at">The present; an instant before the last entry's is taken as that.</param>
    /// <exception cref="IOException">The key that seals what names a person cannot be written; nothing is appended.</exception>
    public void Append(Entry entry, DateTimeOffset at)
    {
        _payload.ResetWrittenCount();
        EntryKind kind = _codec.Write(entry, _payload);
        int head = FrameFormat.PrefixBytes + FrameFormat.FixedBodyBytes(_form), length = head + _payload.WrittenCount;
        Span<byte> frame = _pending.GetSpan(length)[..length];
        _payload.WrittenSpan.CopyTo(frame[head..]);
        LastAt = at > LastAt ? at : LastAt;
        FrameFormat.Complete(frame, _form, new Frame(++Last, LastAt, kind, EntryCodec.VersionOf(entry), _flushed.Last + 1, EndsBatch: false, default));
        _frameAt = _pending.WrittenCount;
        _pending.Advance(length);
    }

    /// <summary>Takes back what was appended since.</summary>
    public void BackTo(JournalMark mark)
    {
        (Last, LastAt, _frameAt) = (mark.Last, mark.LastAt, mark.FrameAt);
        _pending.ResetWrittenCount();
        _pending.Advance(mark.Bytes); // those bytes are still there
    }

    /// <summary>Takes back everything that is not on the disk.</summary>
    public void Forget() => BackTo(_flushed);

    /// <summary>Brings what was appended onto the disk, all of it or nothing.</summary>
    /// <exception cref="IOException">It may not be on the disk: nothing of it may be acknowledged, and it has to be forgotten.</exception>
    public void Flush()
    {
        if (_pending.WrittenCount > 0)
        {
            Flush(isFull: _length + _pending.WrittenCount >= _segmentBytes);
        }
    }

    /// <summary>Leaves the mark of an orderly stop.</summary>
    /// <exception cref="IOException">It may not be on the disk; everything before is.</exception>
    public void Close()
    {
        Flush();
        Ready();
        _pending.Write(ClosingMark.Frame(++Last, LastAt));
        Store(hashed: 0);
    }

    public void Dispose()
    {
        _file?.Dispose();
        _hash.Dispose();
    }

    /// <summary>
    /// Looks whether the segment is still the file of its name: one that somebody deletes, moves or puts another in the place of is written on to, and read by
    /// no start. Where it may not be, the next flush opens it anew, or says why it cannot.
    /// </summary>
    public void Look() => _isDoubtful |= _file is not null && !IsThere(_segment!.Value.Path);

    private bool IsThere(string path)
    {
        try
        {
            using IDiskFile named = _disk.Open(path, FileUse.Read);
            return named.Length >= _length;
        }
        catch (Exception e) when (e is IOException or UnauthorizedAccessException)
        {
            return false;
        }
    }

    private void Flush(bool isFull)
    {
        Ready();
        int hashed = 0;
        if (isFull)
        {
            string previous = PreviousHash(); // first: where that fails, nothing has changed
            _hash.AppendData(_pending.WrittenSpan);
            hashed = _pending.WrittenCount;
            Append(new Entry.SegmentSealed(previous, Convert.ToHexStringLower(_hash.GetCurrentHash())), LastAt);
        }

        FrameFormat.EndBatch(MemoryMarshal.AsMemory(_pending.WrittenMemory).Span[_frameAt..], _form);
        Store(hashed);
        if (isFull)
        {
            _previousHash = Convert.ToHexStringLower(_hash.GetHashAndReset());
            _file!.Dispose();
            (_segment, _file, _length, _form) = (null, null, 0, FrameFormat.Newest);
        }
    }

    /// <returns>SHA-256 of the segment before; empty where it is not what was sealed, unless somebody has put it back meanwhile.</returns>
    private string PreviousHash() =>
        _previousHash ?? (Segment.In(_disk, _folder).LastOrDefault(s => s.First < _segment!.Value.First) is { First: > 0 } before ? JournalReader.HashOf(_disk, before) : null) ?? "";

    /// <summary>One write and one fsync.</summary>
    /// <param name="hashed">How much of it the hash has already.</param>
    private void Store(int hashed)
    {
        _isDoubtful = true;
        _file!.Write(_pending.WrittenSpan, _length);
        _file.Flush();
        _isDoubtful = false;
        _hash.AppendData(_pending.WrittenSpan[hashed..]);
        _length += _pending.WrittenCount;
        _flushed = new JournalMark(0, 0, Last, LastAt);
        Forget();
    }

    /// <summary>Sees to it that there is a segment that ends where it was flushed last.</summary>
    private void Ready()
    {
        if (_isDoubtful || _file?.Length < _length)
        {
            Reopen();
        }

        if (_file is null)
        {
            Begin();
        }
    }

    private void Begin()
    {
        _isDoubtful = true;
        long first = _flushed.Last + 1;
        _segment = Segment.Named(_folder, first);
        _file = _disk.Open(_segment.Value.Path, FileUse.Make);
        byte[] header = Segment.Header(_journalId, first);
        _file.Write(header, 0);
        _file.Flush();
        _disk.FlushFolder(_folder);
        _isDoubtful = false;
        _hash.AppendData(header);
        _length = header.Length;
    }

    private void Reopen()
    {
        string path = _segment!.Value.Path;
        _file?.Dispose();
        _file = null;
        _ = _hash.GetHashAndReset();
        if (_length == 0)
        {
            _disk.Delete(path);
            _disk.FlushFolder(_folder);
        }
        else
        {
            byte[] bytes = DurableFile.Read(_disk, path);
            _hash.AppendData(bytes.Length >= _length ? bytes.AsSpan(0, (int)_length) : throw new IOException($"{path} has lost its end."));
            _file = _disk.Open(path, FileUse.Write);
            _file.SetLength(_length);
            _file.Flush();
        }

        _isDoubtful = false;
    }
}
