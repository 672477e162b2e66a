using CureWatch.Service.Disk;
using CureWatch.Service.Journal;

namespace CureWatch.Service.Tests.Journal;

/// <summary>What the reader makes of a last segment that is not as it was written: cut off by the power, or damaged.</summary>
public sealed class BatchTests : IDisposable
{
    private const int SectorBytes = 512;

    private readonly Entries _entries = new();

    public void Dispose() => _entries.Dispose();

    [Fact]
    public void Batch_OfWhichAnySectorsAreMissing_IsNotThereAtAll()
    {
        List<(int Start, int End)> batches = WriteBatches(1, 40, 3, 60);
        byte[] whole = File.ReadAllBytes(_entries.LastSegment);
        (int start, int end) = batches[^1];
        int first = start / SectorBytes, sectors = ((end - 1) / SectorBytes) - first + 1;
        Assert.InRange(sectors, 4, 10);
        for (int missing = 1; missing < 1 << sectors; missing++)
        {
            byte[] bytes = [.. whole];
            foreach (int sector in Enumerable.Range(0, sectors).Where(s => (missing & (1 << s)) != 0))
            {
                int from = Math.Max(start, (first + sector) * SectorBytes);
                bytes.AsSpan(from, Math.Min(end, (first + sector + 1) * SectorBytes) - from).Clear();
            }

            File.WriteAllBytes(_entries.LastSegment, bytes);
            (JournalReader reader, List<Frame> frames) = _entries.Read();
            Assert.Null(reader.Damage);
            Assert.Equal((44, start, end - start), (frames.Count, reader.End.Bytes, reader.End.TornBytes));
        }
    }

    [Fact]
    public void Batch_BehindWhichAnotherWasWritten_IsDamaged()
    {
        List<(int Start, int End)> batches = WriteBatches(40, 1);
        byte[] bytes = File.ReadAllBytes(_entries.LastSegment);
        bytes.AsSpan(batches[0].Start, batches[0].End - batches[0].Start).Clear();
        File.WriteAllBytes(_entries.LastSegment, bytes);
        Assert.Equal(batches[0].Start, _entries.Read().Reader.Damage?.Offset);
    }

    [Fact]
    public void Batch_CutOff_IsWrittenAgainFromItsBeginning()
    {
        List<(int Start, int End)> batches = WriteBatches(3, 5);
        File.WriteAllBytes(_entries.LastSegment, File.ReadAllBytes(_entries.LastSegment)[..(batches[1].End - 1)]);
        Assert.Equal(3, _entries.Read().Frames.Count);
        _entries.Write([new Entry.EngineStarted("after")]);
        Assert.Equal("after", Assert.IsType<Entry.EngineStarted>(_entries.ReadEntries()[3]).Program);
        Assert.Null(_entries.Read().Reader.Damage);
    }

    [Theory]
    [InlineData(JournalWriter.UsualSegmentBytes)]
    [InlineData(300)]
    public void Journal_ClosedAsItShouldBe_HasNoByteThatMayChange(long segmentBytes)
    {
        _entries.Write(Entries.OneOfEach, segmentBytes);
        Close();
        foreach (Segment segment in Segment.In(LocalDisk.Instance, _entries.Journal))
        {
            byte[] bytes = File.ReadAllBytes(segment.Path);
            for (int i = 0; i < bytes.Length; i++)
            {
                byte flipped = (byte)(1 << (i % 8));
                bytes[i] ^= flipped;
                File.WriteAllBytes(segment.Path, bytes);
                Assert.Equal(segment.Path, _entries.Read().Reader.Damage?.File);
                bytes[i] ^= flipped;
            }

            File.WriteAllBytes(segment.Path, bytes);
        }

        Assert.Null(_entries.Read().Reader.Damage);
    }

    [Fact]
    public void ClosingMark_CutOffAnywhere_IsNoDamage()
    {
        _entries.Write(Entries.OneOfEach);
        long before = new FileInfo(_entries.LastSegment).Length;
        Close();
        byte[] whole = File.ReadAllBytes(_entries.LastSegment);
        for (int length = (int)before; length < whole.Length; length++)
        {
            File.WriteAllBytes(_entries.LastSegment, whole[..length]);
            AssertCutOff();
            byte[] zeros = [.. whole[..length], .. new byte[whole.Length - length]];
            File.WriteAllBytes(_entries.LastSegment, zeros);
            AssertCutOff();
        }

        void AssertCutOff()
        {
            (JournalReader reader, List<Frame> frames) = _entries.Read();
            Assert.Null(reader.Damage);
            Assert.Equal(Entries.OneOfEach.Length, frames.Count);
        }
    }

    /// <summary>Laid out by hand, with a checksum of another program, after how the first form was described on 2026-11-25.</summary>
    [Fact]
    public void Segment_OfTheFirstForm_IsReadAndSealed_AndTheNextIsOfTheNewest()
    {
        const string First =
            "63776A6F75726E6C010000000102030405060708090A0B0C0D0E0F100100000000000000186B96CA"
            + "120000008A7F143C01000000000000000080EA23B3A9DE080201"
            + "3500000083CEA5CE020000000000000080168324B3A9DE08030107056261792D310361697203006024A1A9DE0800000000004034400000000000404940";
        string segment = Segment.Named(_entries.Journal, 1).Path;
        byte[] bytes = Convert.FromHexString(First);
        File.WriteAllBytes(segment, [.. bytes, 1, 2, 3]);
        (JournalReader reader, List<Frame> frames) = _entries.Read();
        Assert.Null(reader.Damage);
        Assert.Equal((2, 3L, 20.25), (frames.Count, reader.End.TornBytes, ((Entry.Reading)_entries.Codec.Read(frames[1])).AirC));

        _entries.Write([new Entry.ClockReached()]);
        Assert.Equal(
            [typeof(Entry.ClockReached), typeof(Entry.Reading), typeof(Entry.SegmentSealed), typeof(Entry.ClockReached)],
            _entries.ReadEntries().Select(e => e.GetType()));
        Assert.Equal(2, Segment.In(LocalDisk.Instance, _entries.Journal).Count);
        Assert.Null(_entries.Read().Reader.Damage);

        File.Delete(Segment.Named(_entries.Journal, 4).Path);
        bytes[50] ^= 1; // in the first of two frames
        File.WriteAllBytes(segment, bytes);
        Assert.NotNull(_entries.Read().Reader.Damage);
    }

    private void Close()
    {
        using var writer = new JournalWriter(LocalDisk.Instance, _entries.Journal, _entries.Codec, _entries.Read().Reader.End);
        writer.Close();
    }

    /// <summary>Writes batches of so many entries each.</summary>
    /// <returns>Where each lies in the one segment.</returns>
    private List<(int Start, int End)> WriteBatches(params int[] sizes)
    {
        var batches = new List<(int, int)>();
        using var writer = new JournalWriter(LocalDisk.Instance, _entries.Journal, _entries.Codec, JournalEnd.Empty);
        foreach (int size in sizes)
        {
            for (int i = 0; i < size; i++)
            {
                writer.Append(new Entry.Reading("bay-1", "air-1", Entries.At, 20 + i, 50, null), Entries.At);
            }

            int start = batches.Count == 0 ? Segment.HeaderBytes : (int)new FileInfo(_entries.LastSegment).Length;
            writer.Flush();
            batches.Add((start, (int)new FileInfo(_entries.LastSegment).Length));
        }

        return batches;
    }
}
