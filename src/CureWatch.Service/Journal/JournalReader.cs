using System.Security.Cryptography;
using CureWatch.Service.Disk;

namespace CureWatch.Service.Journal;

/// <summary>Reads a journal from its first frame to its last, and says where it is damaged.</summary>
/// <remarks>
/// A batch is there as a whole, or not at all. What is not whole at the end of the last segment is torn: the power went during a write that was never
/// acknowledged. But where a sound frame of a later batch follows, the one before was on the disk, so that is damage, like anything else that is not
/// what was written; and reading stops there.
/// </remarks>
internal sealed class JournalReader
{
    private readonly IDisk _disk;
    private readonly IReadOnlyList<Segment> _segments;
    private readonly bool _isWhole;
    private JournalEnd _end;

    /// <summary>Reads a whole journal.</summary>
    public JournalReader(IDisk disk, string folder)
        : this(disk, folder, Segment.In(disk, folder))
    {
    }

    /// <summary>Reads a journal from the segment on that holds an entry.</summary>
    /// <param name="disk">The disk.</param>
    /// <param name="folder">The journal's folder.</param>
    /// <param name="sequence">The number of the entry.</param>
    public static JournalReader From(IDisk disk, string folder, long sequence)
    {
        IReadOnlyList<Segment> segments = Segment.In(disk, folder);
        int before = segments.Count(s => s.First <= sequence) - 1;
        if (before <= 0)
        {
            return new JournalReader(disk, folder, segments);
        }

        JournalEnd end = JournalEnd.Empty with { Last = segments[before].First - 1, PreviousHash = HashOf(disk, segments[before - 1]) };
        return new JournalReader(disk, [.. segments.Skip(before)], end, isWhole: true);
    }

    /// <returns>SHA-256 of a full segment; null where it is not what was sealed, or cannot be read.</returns>
    public static string? HashOf(IDisk disk, Segment segment)
    {
        try
        {
            return new JournalReader(disk, [segment], JournalEnd.Empty with { Last = segment.First - 1, PreviousHash = null }, isWhole: false).Through().End.PreviousHash;
        }
        catch (Exception e) when (e is IOException or UnauthorizedAccessException)
        {
            return null;
        }
    }

    private JournalReader(IDisk disk, string folder, IReadOnlyList<Segment> segments)
        : this(disk, segments, JournalEnd.Empty, isWhole: true) => (_end, Damage) = Begin(disk, folder, segments);

    private JournalReader(IDisk disk, IReadOnlyList<Segment> segments, JournalEnd before, bool isWhole) =>
        (_disk, _segments, _end, _isWhole) = (disk, segments, before, isWhole);

    /// <summary>What is wrong; null while nothing is.</summary>
    public Damage? Damage { get; private set; }

    /// <summary>Where the frames read so far end.</summary>
    public JournalEnd End => _end;

    /// <summary>Reads the frames, each of which is good until the next is asked for.</summary>
    public IEnumerable<Frame> Frames()
    {
        for (int i = 0; i < _segments.Count && Damage is null; i++)
        {
            byte[] bytes = DurableFile.Read(_disk, _segments[i].Path);
            foreach (Frame frame in FramesOf(_segments[i], bytes, isLast: _isWhole && i == _segments.Count - 1))
            {
                yield return frame;
            }
        }
    }

    /// <summary>Where each damaged segment of a journal is damaged first; a segment is judged although the one before is damaged.</summary>
    public static IEnumerable<Damage> DamagesIn(IDisk disk, string folder)
    {
        IReadOnlyList<Segment> segments = Segment.In(disk, folder);
        (JournalEnd before, Damage? first) = Begin(disk, folder, segments);
        if (first is not null)
        {
            yield return first;
        }

        for (int i = 0; i < segments.Count; i++)
        {
            JournalReader reader = new JournalReader(disk, [segments[i]], before, isWhole: i == segments.Count - 1).Through();
            before = reader.End;
            if (reader.Damage is { } damage)
            {
                yield return damage;
                long next = i + 1 < segments.Count ? segments[i + 1].First : 0;
                before = before with { Last = next - 1, LastAt = DateTimeOffset.MinValue, PreviousHash = null };
            }
        }
    }

    private JournalReader Through()
    {
        _ = Frames().Count(); // each is checked as it is read
        return this;
    }

    /// <returns>Where a journal stands before its first segment here: at the end of a part that was retired, or at nothing.</returns>
    private static (JournalEnd Before, Damage? Damage) Begin(IDisk disk, string folder, IReadOnlyList<Segment> segments)
    {
        try
        {
            return (RetiredPart.Before(disk, folder, segments), null);
        }
        catch (InvalidDataException e)
        {
            return (JournalEnd.Empty, new Damage(folder, 0, e.Message));
        }
    }

    private IEnumerable<Frame> FramesOf(Segment segment, byte[] bytes, bool isLast)
    {
        if (!Opens(segment, bytes, isLast))
        {
            yield break;
        }

        int offset = Segment.HeaderBytes;
        bool isSealed = false;
        var batch = new List<Frame>();
        while (offset < bytes.Length && FrameFormat.TryRead(bytes.AsMemory(offset), _end.Form, out Frame frame) is > 0 and var taken
            && Follows(segment, offset, batch, frame))
        {
            batch.Add(frame);
            isSealed = frame.Kind == EntryKind.SegmentSealed;
            if (isSealed && !IsSoundSeal(segment, bytes, offset, frame))
            {
                yield break;
            }

            offset += taken;
            if (frame.EndsBatch)
            {
                _end = _end with { Last = frame.Sequence, LastAt = frame.At, Bytes = offset };
                foreach (Frame whole in batch)
                {
                    yield return whole;
                }

                batch.Clear();
            }
        }

        Close(segment, bytes, offset, isLast, isSealed);
    }

    private bool Opens(Segment segment, byte[] bytes, bool isLast)
    {
        bool isUnborn = isLast && (bytes.Length < Segment.HeaderBytes || !bytes.AsSpan().ContainsAnyExcept((byte)0));
        if (isUnborn)
        {
            _end = _end with { Segment = segment, Bytes = 0, TornBytes = bytes.Length, IsSealed = false };
            return false;
        }

        (int Form, byte[] JournalId)? header = Segment.HeaderIn(bytes, segment.First);
        string? wrong =
            header is null ? "no header of a journal segment"
            : _end.JournalId is { } own && !own.AsSpan().SequenceEqual(header.Value.JournalId) ? "a segment of another journal"
            : segment.First != _end.Last + 1 ? $"begins with frame {segment.First}, but the frame before is {_end.Last}"
            : null;
        if (wrong is not null)
        {
            Damage = new Damage(segment.Path, 0, wrong);
            return false;
        }

        _end = _end with
        {
            JournalId = header!.Value.JournalId, Segment = segment, Form = header.Value.Form, Bytes = Segment.HeaderBytes, TornBytes = 0, IsSealed = false,
        };
        return true;
    }

    private bool Follows(Segment segment, int offset, List<Frame> batch, Frame frame)
    {
        (long last, DateTimeOffset lastAt) = batch.Count > 0 ? (batch[^1].Sequence, batch[^1].At) : (_end.Last, _end.LastAt);
        if (frame.Sequence == last + 1 && frame.At >= lastAt && frame.Batch == _end.Last + 1)
        {
            return true;
        }

        Damage = new Damage(segment.Path, offset, $"frame {frame.Sequence} does not follow frame {last}");
        return false;
    }

    private bool IsSoundSeal(Segment segment, byte[] bytes, int offset, Frame frame)
    {
        bool isSound = EntryCodec.FindSeal(frame) is { } seal
            && seal.Content == Convert.ToHexStringLower(SHA256.HashData(bytes.AsSpan(0, offset)))
            && seal.Follows(_end.PreviousHash);
        if (!isSound)
        {
            Damage = new Damage(segment.Path, offset, "the seal does not fit what it seals");
        }

        return isSound;
    }

    private void Close(Segment segment, byte[] bytes, int offset, bool isLast, bool isSealed)
    {
        if (Damage is not null)
        {
            return;
        }

        if (_end.Bytes < bytes.Length && (!isLast || isSealed || WasOnDisk(bytes.AsMemory(offset))))
        {
            Damage = new Damage(segment.Path, offset, "the frame is not what was written");
        }
        else if (!isLast && !isSealed)
        {
            Damage = new Damage(segment.Path, offset, "the segment is not sealed, but another follows it");
        }
        else if (isSealed)
        {
            _end = _end with { PreviousHash = Convert.ToHexStringLower(SHA256.HashData(bytes)), IsSealed = true };
        }

        _end = _end with { TornBytes = bytes.Length - _end.Bytes };
    }

    /// <summary>Whether what cannot be read here was on the disk once.</summary>
    private bool WasOnDisk(ReadOnlyMemory<byte> bytes)
    {
        long batch = _end.Last + 1;
        for (int i = 1; i < bytes.Length; i++)
        {
            if (FrameFormat.TryRead(bytes[i..], _end.Form, out Frame frame) > 0 && frame.Batch > batch)
            {
                return true;
            }
        }

        return ClosingMark.IsHurt(bytes.Span, batch, _end.LastAt);
    }
}
