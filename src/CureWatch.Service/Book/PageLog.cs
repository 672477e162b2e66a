using System.Buffers;
using System.Buffers.Binary;
using CureWatch.Service.Disk;

namespace CureWatch.Service.Book;

/// <summary>
/// The store's log as it sees it: page after page. In the file each page is followed by its place and a checksum over both, so that after a power cut
/// the log ends before the first page that is not whole; without, half a page would be taken for one. The store itself ignores a transaction that
/// lacks pages at the end.
/// </summary>
/// <remarks>
/// What the store writes waits in memory until it has committed, and is then written and flushed at once: a transaction that met a write that failed
/// would throw once more when the store's memory is tidied up, where nobody could catch it. Emptying the log is flushed before anything else is
/// written: a beginning of what it held must never come back over a file that is further on.
/// </remarks>
internal sealed class PageLog : Stream
{
    private readonly IDiskFile _file;
    private readonly bool _canWrite;
    private readonly byte[] _slot = new byte[PageSlot.Bytes];
    private readonly ArrayBufferWriter<byte> _waiting = new();
    private readonly HashSet<long> _held = [];

    /// <summary>How many pages the file has.</summary>
    private long _stored;

    public PageLog(IDiskFile file, bool canWrite = true)
    {
        (_file, _canWrite) = (file, canWrite);
        while (PageSlot.TryRead(_file, _stored, _slot))
        {
            _held.Add(IdOf(_slot));
            _stored++;
        }

        if (canWrite && IsTorn)
        {
            Cut(_stored);
        }
    }

    /// <summary>Whether something follows in the file that is no whole page.</summary>
    public bool IsTorn => _file.Length != _stored * PageSlot.Bytes;

    /// <summary>Whether a newer form of a page of the file is here.</summary>
    public bool Holds(long page) => _held.Contains(page);

    public override bool CanRead => true;

    public override bool CanSeek => true;

    public override bool CanWrite => _canWrite;

    public override long Length => (_stored * PageSlot.PageBytes) + (_waiting.WrittenCount / PageSlot.Bytes * PageSlot.PageBytes);

    public override long Position { get; set; }

    public override int Read(byte[] buffer, int offset, int count)
    {
        long page = PageSlot.PageAt(Position, count);
        if (Position >= Length)
        {
            return 0;
        }

        if (page >= _stored)
        {
            _waiting.WrittenSpan.Slice((int)(page - _stored) * PageSlot.Bytes, PageSlot.Bytes).CopyTo(_slot);
        }
        else if (!PageSlot.TryRead(_file, page, _slot))
        {
            throw new IOException($"Page {page} of the book's log is not what was written.");
        }

        _slot.AsSpan(0, PageSlot.PageBytes).CopyTo(buffer.AsSpan(offset, count));
        Position += count;
        return count;
    }

    public override void Write(byte[] buffer, int offset, int count)
    {
        long page = PageSlot.PageAt(Position, count);
        if (Position != Length)
        {
            throw new NotSupportedException("The log is written at its end.");
        }

        Span<byte> slot = _waiting.GetSpan(PageSlot.Bytes)[..PageSlot.Bytes];
        buffer.AsSpan(offset, count).CopyTo(slot);
        PageSlot.Seal(slot, page);
        _held.Add(IdOf(slot));
        _waiting.Advance(PageSlot.Bytes);
        Position += count;
    }

    public override long Seek(long offset, SeekOrigin origin) => throw new NotSupportedException("Pages have positions.");

    public override void SetLength(long value)
    {
        _waiting.ResetWrittenCount();
        Cut(PageSlot.PageAt(value, PageSlot.PageBytes));
    }

    /// <summary>Brings what waits onto the disk.</summary>
    /// <exception cref="IOException">It may not be there, and the book has to be opened anew.</exception>
    public override void Flush()
    {
        if (_waiting.WrittenCount > 0)
        {
            _file.Write(_waiting.WrittenSpan, _stored * PageSlot.Bytes);
            _file.Flush();
            _stored += _waiting.WrittenCount / PageSlot.Bytes;
            _waiting.ResetWrittenCount();
        }
    }

    /// <summary>Which page of the store it is. Source (law): the store's file format.</summary>
    private static long IdOf(ReadOnlySpan<byte> page) => BinaryPrimitives.ReadUInt32LittleEndian(page);

    private void Cut(long pages)
    {
        _file.SetLength(pages * PageSlot.Bytes);
        _file.Flush();
        _stored = pages;
        if (pages == 0)
        {
            _held.Clear();
        }
    }
}
