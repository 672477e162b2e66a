using System.Buffers;
using System.Buffers.Binary;
using CureWatch.Service.Disk;
using CureWatch.Service.Journal;

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
    public const int PageBytes = 8192;

    private const int SlotBytes = PageBytes + sizeof(long) + sizeof(uint);

    private readonly IDiskFile _file;
    private readonly bool _canWrite;
    private readonly byte[] _slot = new byte[SlotBytes];
    private readonly ArrayBufferWriter<byte> _waiting = new();

    /// <summary>How many pages the file has.</summary>
    private long _stored;

    public PageLog(IDiskFile file, bool canWrite = true)
    {
        (_file, _canWrite) = (file, canWrite);
        while (TryReadSlot(_stored))
        {
            _stored++;
        }

        if (canWrite && IsTorn)
        {
            Cut(_stored);
        }
    }

    /// <summary>Whether something follows in the file that is no whole page.</summary>
    public bool IsTorn => _file.Length != _stored * SlotBytes;

    public override bool CanRead => true;

    public override bool CanSeek => true;

    public override bool CanWrite => _canWrite;

    public override long Length => (_stored * PageBytes) + (_waiting.WrittenCount / SlotBytes * PageBytes);

    public override long Position { get; set; }

    public override int Read(byte[] buffer, int offset, int count)
    {
        long page = PageAt(Position, count);
        if (Position >= Length)
        {
            return 0;
        }

        if (page >= _stored)
        {
            _waiting.WrittenSpan.Slice((int)(page - _stored) * SlotBytes, SlotBytes).CopyTo(_slot);
        }
        else if (!TryReadSlot(page))
        {
            throw new IOException($"Page {page} of the book's log is not what was written.");
        }

        _slot.AsSpan(0, PageBytes).CopyTo(buffer.AsSpan(offset, count));
        Position += count;
        return count;
    }

    public override void Write(byte[] buffer, int offset, int count)
    {
        long page = PageAt(Position, count);
        if (Position != Length)
        {
            throw new NotSupportedException("The log is written at its end.");
        }

        Span<byte> slot = _waiting.GetSpan(SlotBytes)[..SlotBytes];
        buffer.AsSpan(offset, count).CopyTo(slot);
        BinaryPrimitives.WriteInt64LittleEndian(slot[PageBytes..], page);
        BinaryPrimitives.WriteUInt32LittleEndian(slot[(PageBytes + sizeof(long))..], ChecksumOf(slot));
        _waiting.Advance(SlotBytes);
        Position += count;
    }

    public override long Seek(long offset, SeekOrigin origin) => throw new NotSupportedException("Pages have positions.");

    public override void SetLength(long value)
    {
        _waiting.ResetWrittenCount();
        Cut(PageAt(value, PageBytes));
    }

    /// <summary>Brings what waits onto the disk.</summary>
    /// <exception cref="IOException">It may not be there, and the book has to be opened anew.</exception>
    public override void Flush()
    {
        if (_waiting.WrittenCount > 0)
        {
            _file.Write(_waiting.WrittenSpan, _stored * SlotBytes);
            _file.Flush();
            _stored += _waiting.WrittenCount / SlotBytes;
            _waiting.ResetWrittenCount();
        }
    }

    private static long PageAt(long position, int count) => position % PageBytes == 0 && count == PageBytes
        ? position / PageBytes
        : throw new NotSupportedException("The log is read and written by whole pages.");

    private static uint ChecksumOf(ReadOnlySpan<byte> slot) => Crc32C.Of(slot[..(PageBytes + sizeof(long))]);

    private void Cut(long pages)
    {
        _file.SetLength(pages * SlotBytes);
        _file.Flush();
        _stored = pages;
    }

    private bool TryReadSlot(long page) =>
        _file.Read(_slot, page * SlotBytes) == SlotBytes
        && BinaryPrimitives.ReadInt64LittleEndian(_slot.AsSpan(PageBytes)) == page
        && BinaryPrimitives.ReadUInt32LittleEndian(_slot.AsSpan(PageBytes + sizeof(long))) == ChecksumOf(_slot);
}
