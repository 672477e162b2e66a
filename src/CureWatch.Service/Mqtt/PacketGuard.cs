namespace CureWatch.Service.Mqtt;

/// <summary>
/// Reads a connection no further than a packet that is too long: the library would make room for all of it, a quarter of a gigabyte if need
/// be, before anybody has looked at it.
/// </summary>
internal sealed class PacketGuard(Stream inner, int mostBytes, Action<int> refused) : Stream
{
    private int _left;
    private int _length;
    private int _shift = -1;

    public override bool CanRead => true;

    public override bool CanSeek => false;

    public override bool CanWrite => true;

    public override long Length => throw new NotSupportedException();

    public override long Position
    {
        get => throw new NotSupportedException();
        set => throw new NotSupportedException();
    }

    public override async ValueTask<int> ReadAsync(Memory<byte> buffer, CancellationToken cancellationToken = default)
    {
        int count = await inner.ReadAsync(buffer, cancellationToken).ConfigureAwait(false);
        Follow(buffer.Span[..count]);
        return count;
    }

    public override Task<int> ReadAsync(byte[] buffer, int offset, int count, CancellationToken cancellationToken) =>
        ReadAsync(buffer.AsMemory(offset, count), cancellationToken).AsTask();

    public override int Read(byte[] buffer, int offset, int count)
    {
        int read = inner.Read(buffer, offset, count);
        Follow(buffer.AsSpan(offset, read));
        return read;
    }

    public override ValueTask WriteAsync(ReadOnlyMemory<byte> buffer, CancellationToken cancellationToken = default) => inner.WriteAsync(buffer, cancellationToken);

    public override Task WriteAsync(byte[] buffer, int offset, int count, CancellationToken cancellationToken) =>
        inner.WriteAsync(buffer.AsMemory(offset, count), cancellationToken).AsTask();

    public override void Write(byte[] buffer, int offset, int count) => inner.Write(buffer, offset, count);

    public override void Flush() => inner.Flush();

    public override Task FlushAsync(CancellationToken cancellationToken) => inner.FlushAsync(cancellationToken);

    public override long Seek(long offset, SeekOrigin origin) => throw new NotSupportedException();

    public override void SetLength(long value) => throw new NotSupportedException();

    protected override void Dispose(bool disposing)
    {
        if (disposing)
        {
            inner.Dispose();
        }

        base.Dispose(disposing);
    }

    /// <summary>Follows the packets: a byte of type and flags, up to four of length with seven bits each (MQTT 5, section 2.1), the rest.</summary>
    private void Follow(ReadOnlySpan<byte> bytes)
    {
        while (!bytes.IsEmpty)
        {
            if (_left > 0)
            {
                int skipped = Math.Min(_left, bytes.Length);
                _left -= skipped;
                bytes = bytes[skipped..];
                continue;
            }

            if (_shift < 0)
            {
                (_shift, _length) = (0, 0);
            }
            else
            {
                _length |= (bytes[0] & 0x7F) << _shift;
                bool isLast = (bytes[0] & 0x80) == 0;
                _shift += 7;
                if (_length > mostBytes || (!isLast && _shift > 21))
                {
                    refused(_length);
                    throw new IOException($"A packet is longer than {mostBytes} bytes.");
                }

                if (isLast)
                {
                    (_shift, _left) = (-1, _length);
                }
            }

            bytes = bytes[1..];
        }
    }
}
