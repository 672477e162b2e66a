using CureWatch.Service.Disk;

namespace CureWatch.Service.Book;

/// <summary>The store's file as it sees it: page after page. In the file each is followed by its place and a checksum, held against it whenever it is read.</summary>
/// <remarks>
/// A page that is not what was written is refused, so that the book is written anew and nobody is told a number that never was. While the log has a
/// page it may be half written here, by a power cut amid a checkpoint, and what the log says counts.
/// </remarks>
/// <param name="file">The file.</param>
/// <param name="log">Its log; null where there is none.</param>
/// <param name="canWrite">Whether it may be changed.</param>
internal sealed class PageFile(IDiskFile file, PageLog? log, bool canWrite = true) : Stream
{
    private readonly byte[] _slot = new byte[PageSlot.Bytes];

    /// <summary>Whether a page at its end is only half there.</summary>
    public bool EndsInAPage => file.Length % PageSlot.Bytes != 0;

    public override bool CanRead => true;

    public override bool CanSeek => true;

    public override bool CanWrite => canWrite;

    public override long Length => Pages * PageSlot.PageBytes;

    public override long Position { get; set; }

    private long Pages => file.Length / PageSlot.Bytes;

    /// <summary>Holds pages against their checksums.</summary>
    /// <returns>How many there were, from a page on.</returns>
    /// <exception cref="InvalidDataException">One is not what was written.</exception>
    public int Check(long from, int most)
    {
        int count = (int)Math.Clamp(Pages - from, 0, most);
        for (long page = from; page < from + count; page++)
        {
            ReadSlot(page);
        }

        return count;
    }

    public override int Read(byte[] buffer, int offset, int count)
    {
        ReadSlot(PageSlot.PageAt(Position, count));
        _slot.AsSpan(0, count).CopyTo(buffer.AsSpan(offset));
        Position += count;
        return count;
    }

    public override void Write(byte[] buffer, int offset, int count)
    {
        long page = PageSlot.PageAt(Position, count);
        buffer.AsSpan(offset, count).CopyTo(_slot);
        PageSlot.Seal(_slot, page);
        file.Write(_slot, page * PageSlot.Bytes);
        Position += count;
    }

    public override long Seek(long offset, SeekOrigin origin) => throw new NotSupportedException("Pages have positions.");

    public override void SetLength(long value) => file.SetLength(PageSlot.PageAt(value, PageSlot.PageBytes) * PageSlot.Bytes);

    public override void Flush() => file.Flush();

    private void ReadSlot(long page)
    {
        if (!PageSlot.TryRead(file, page, _slot) && log?.Holds(page) != true)
        {
            throw new InvalidDataException($"byte {page * PageSlot.Bytes}: page {page} is not what was written");
        }
    }
}
