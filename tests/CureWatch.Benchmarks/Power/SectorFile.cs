namespace CureWatch.Benchmarks.Power;

/// <summary>A file as it is in memory, and as it is on the disk.</summary>
internal sealed class SectorFile
{
    private const int SectorBytes = 512;

    private readonly HashSet<int> _changed = [];
    private byte[] _now = [];
    private byte[] _flushed = [];
    private int _flushedLength;

    /// <summary>The shortest it was since it was flushed: behind that nothing is left of what it held before.</summary>
    private int _shortest;

    public int Length { get; private set; }

    public int Read(Span<byte> bytes, long offset)
    {
        int count = (int)Math.Clamp(Length - offset, 0, bytes.Length);
        _now.AsSpan((int)Math.Min(offset, Length), count).CopyTo(bytes);
        return count;
    }

    public void Write(ReadOnlySpan<byte> bytes, long offset)
    {
        SetLength(Math.Max(Length, offset + bytes.Length));
        bytes.CopyTo(_now.AsSpan((int)offset));
        for (int sector = (int)offset / SectorBytes; sector * SectorBytes < offset + bytes.Length; sector++)
        {
            _changed.Add(sector);
        }
    }

    public void SetLength(long length)
    {
        Grow(ref _now, (int)length);
        _now.AsSpan((int)length).Clear();
        Length = (int)length;
        _shortest = Math.Min(_shortest, Length);
        _changed.RemoveWhere(s => s * SectorBytes >= Length);
    }

    public void Flush() => Settle(Length, isShrunk: true, _changed);

    /// <summary>Keeps what was flushed, and any of the rest.</summary>
    public void LosePower(Random random)
    {
        double kept = random.Next(4) switch { 0 => 0, 1 => 1, _ => random.NextDouble() };
        bool shrank = _shortest < _flushedLength, staysShrunk = shrank && random.NextDouble() < kept;
        int length = shrank && !staysShrunk ? _flushedLength : LengthBetween(_shortest, Length, random, kept);
        int end = shrank && !staysShrunk ? _shortest : length;
        Settle(length, staysShrunk, [.. _changed.Order().Where(s => s * SectorBytes < end && random.NextDouble() < kept)]);
        (_now, Length) = ([.. _flushed], _flushedLength);
    }

    private static int LengthBetween(int least, int most, Random random, double kept) =>
        random.NextDouble() < kept ? most : random.NextDouble() < kept ? random.Next(least, most + 1) : least;

    private void Settle(int length, bool isShrunk, IReadOnlyCollection<int> sectors)
    {
        Grow(ref _flushed, Math.Max(length, Length));
        if (isShrunk)
        {
            _flushed.AsSpan(_shortest).Clear();
        }

        foreach (int sector in sectors)
        {
            Sector(_now, sector).CopyTo(_flushed.AsSpan(sector * SectorBytes));
        }

        _flushed.AsSpan(length).Clear();
        (_flushedLength, _shortest) = (length, length);
        _changed.Clear();
    }

    private static ReadOnlySpan<byte> Sector(byte[] bytes, int sector) => bytes.AsSpan(sector * SectorBytes, SectorBytes);

    private static void Grow(ref byte[] bytes, int length)
    {
        if (bytes.Length < length)
        {
            Array.Resize(ref bytes, Math.Max((length + SectorBytes - 1) / SectorBytes * SectorBytes, bytes.Length * 2));
        }
    }
}
