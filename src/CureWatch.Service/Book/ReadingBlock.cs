using System.Buffers.Binary;

namespace CureWatch.Service.Book;

/// <summary>Readings of one probe in the order they came, 12 bytes each: milliseconds since the first, temperature, humidity.</summary>
/// <remarks>
/// 660 of them are 7,920 bytes, which with its frame fills a page of LiteDB: measured 12.6 bytes a reading on disk, against 240 where each
/// is a document of its own. A float holds what a probe says to four decimals, and that is what comes out again.
/// </remarks>
internal sealed class ReadingBlock
{
    public const int Capacity = 660;

    private const int SampleBytes = 12;
    private const int Decimals = 4;

    private readonly byte[] _samples = new byte[Capacity * SampleBytes];
    private int _length;

    /// <summary>An empty block, after a reading that is in no open block any more.</summary>
    public ReadingBlock(string bay, string probe, long through) => (Bay, Probe, Through) = (bay, probe, through);

    public ReadingBlock(string bay, string probe, long baseUnixMs, long fromUnixMs, long toUnixMs, long through, ReadOnlySpan<byte> samples)
        : this(bay, probe, through)
    {
        if (samples.Length > _samples.Length || samples.Length % SampleBytes != 0)
        {
            throw new InvalidDataException($"The book has a block of {samples.Length} bytes for {bay}/{probe}.");
        }

        (BaseUnixMs, FromUnixMs, ToUnixMs) = (baseUnixMs, fromUnixMs, toUnixMs);
        samples.CopyTo(_samples);
        _length = samples.Length;
    }

    public string Bay { get; }

    public string Probe { get; }

    /// <summary>The number of the entry of its newest reading, or of the newest before it.</summary>
    public long Through { get; private set; }

    /// <summary>When its first reading was measured.</summary>
    public long BaseUnixMs { get; private set; }

    /// <summary>The earliest instant in it; readings may come late.</summary>
    public long FromUnixMs { get; private set; }

    /// <summary>The latest instant in it.</summary>
    public long ToUnixMs { get; private set; }

    public ReadOnlySpan<byte> Samples => _samples.AsSpan(0, _length);

    /// <summary>Whether there is room for a reading, near enough to the first.</summary>
    public bool HasRoomFor(long atUnixMs) =>
        _length == 0 || (_length < _samples.Length && Math.Abs(atUnixMs - BaseUnixMs) <= int.MaxValue);

    public void Add(long sequence, BookedReading reading)
    {
        long at = reading.At.ToUnixTimeMilliseconds();
        (BaseUnixMs, FromUnixMs, ToUnixMs) = _length == 0 ? (at, at, at) : (BaseUnixMs, Math.Min(FromUnixMs, at), Math.Max(ToUnixMs, at));
        Span<byte> sample = _samples.AsSpan(_length, SampleBytes);
        BinaryPrimitives.WriteInt32LittleEndian(sample, (int)(at - BaseUnixMs));
        BinaryPrimitives.WriteSingleLittleEndian(sample[4..], (float)reading.TemperatureC);
        BinaryPrimitives.WriteSingleLittleEndian(sample[8..], (float)(reading.HumidityPct ?? double.NaN));
        _length += SampleBytes;
        Through = sequence;
    }

    /// <summary>Adds what was measured in a stretch of time, both ends included, to a list.</summary>
    public void CopyBetween(DateTimeOffset from, DateTimeOffset to, List<BookedReading> into)
    {
        for (ReadOnlySpan<byte> rest = Samples; rest.Length > 0; rest = rest[SampleBytes..])
        {
            DateTimeOffset at = DateTimeOffset.FromUnixTimeMilliseconds(BaseUnixMs + BinaryPrimitives.ReadInt32LittleEndian(rest));
            if (at >= from && at <= to)
            {
                float humidity = BinaryPrimitives.ReadSingleLittleEndian(rest[8..]);
                into.Add(new BookedReading(
                    at, Rounded(BinaryPrimitives.ReadSingleLittleEndian(rest[4..])), float.IsNaN(humidity) ? null : Rounded(humidity)));
            }
        }
    }

    private static double Rounded(float value) => Math.Round(value, Decimals);
}
