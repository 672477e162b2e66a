namespace CureWatch.Service.Mqtt;

/// <summary>
/// Reads a connection no further than a packet that is too long: the library would make room for all of it, a quarter of a gigabyte if need
/// be, before anybody has looked at it. It reads ahead besides: the library asks for the head of each packet and then for its body, and to ask the
/// network costs more than all else it does with a reading.
/// </summary>
/// <param name="inner">The connection.</param>
/// <param name="mostBytes">Longest packet [bytes].</param>
/// <param name="refused">Told the length of one that is longer.</param>
/// <param name="heard">Told once the first packet is whole.</param>
internal sealed class PacketGuard(Stream inner, int mostBytes, Action<int> refused, Action heard) : Stream
{
    /// <summary>Some forty readings. Source (choice).</summary>
    private const int AheadBytes = 4 * 1024;

    private readonly byte[] _ahead = new byte[AheadBytes];
    private int _start;
    private int _end;
    private int _left;
    private int _length;
    private int _shift = -1;
    private bool _isHeard;

    public override bool CanRead => true;

    public override bool CanSeek => false;

    public override bool CanWrite => true;

    public override long Length => throw new NotSupportedException();

    public override long Position
    {
        get => throw new NotSupportedException();
        set => throw new NotSupportedException();
    }

    public override ValueTask<int> ReadAsync(Memory<byte> buffer, CancellationToken cancellationToken = default) =>
        _start < _end ? ValueTask.FromResult(Take(buffer.Span)) : ReadAheadAsync(buffer, cancellationToken);

    public override Task<int> ReadAsync(byte[] buffer, int offset, int count, CancellationToken cancellationToken) =>
        ReadAsync(buffer.AsMemory(offset, count), cancellationToken).AsTask();

    public override int Read(byte[] buffer, int offset, int count)
    {
        if (_start == _end)
        {
            (_start, _end) = (0, inner.Read(_ahead));
        }

        return Take(buffer.AsSpan(offset, count));
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

    private async ValueTask<int> ReadAheadAsync(Memory<byte> buffer, CancellationToken cancelled)
    {
        (_start, _end) = (0, await inner.ReadAsync(_ahead, cancelled).ConfigureAwait(false));
        return Take(buffer.Span);
    }

    private int Take(Span<byte> buffer)
    {
        int count = Math.Min(buffer.Length, _end - _start);
        _ahead.AsSpan(_start, count).CopyTo(buffer);
        _start += count;
        Follow(buffer[..count]);
        return count;
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
                if (_left == 0 && !_isHeard)
                {
                    _isHeard = true;
                    heard();
                }

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
