namespace CureWatch.Service.Disk;

/// <summary>A file as a stream, for whoever knows only those. A flush brings it onto the disk.</summary>
/// <remarks>It does not close the file, which whoever opened it does.</remarks>
internal sealed class DiskStream(IDiskFile file, bool canWrite = true) : Stream
{
    public override bool CanRead => true;

    public override bool CanSeek => true;

    public override bool CanWrite => canWrite;

    public override long Length => file.Length;

    public override long Position { get; set; }

    public override int Read(byte[] buffer, int offset, int count) => Read(buffer.AsSpan(offset, count));

    public override int Read(Span<byte> buffer)
    {
        int read = file.Read(buffer, Position);
        Position += read;
        return read;
    }

    public override void Write(byte[] buffer, int offset, int count) => Write(buffer.AsSpan(offset, count));

    public override void Write(ReadOnlySpan<byte> buffer)
    {
        file.Write(buffer, Position);
        Position += buffer.Length;
    }

    public override long Seek(long offset, SeekOrigin origin) => Position = offset + origin switch
    {
        SeekOrigin.Begin => 0,
        SeekOrigin.Current => Position,
        SeekOrigin.End => Length,
        _ => throw new ArgumentOutOfRangeException(nameof(origin), origin, null),
    };

    public override void SetLength(long value) => file.SetLength(value);

    public override void Flush() => file.Flush();
}
