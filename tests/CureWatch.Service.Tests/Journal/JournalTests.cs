using System.Collections;
using System.Text;
using CureWatch.Service.Disk;
using CureWatch.Service.Journal;

namespace CureWatch.Service.Tests.Journal;

public sealed class JournalTests : IDisposable
{
    private readonly Entries _entries = new();

    public void Dispose() => _entries.Dispose();

    [Fact]
    public void Entry_OfEveryKind_ComesBackAsItWas()
    {
        _entries.Write(Entries.OneOfEach);
        (JournalReader reader, List<Frame> frames) = _entries.Read();
        Assert.Null(reader.Damage);
        Assert.Equal(Enumerable.Range(1, frames.Count).Select(i => (long)i), frames.Select(f => f.Sequence));
        Assert.Equal(Entries.OneOfEach.Select(Text), frames.Select(f => Text(_entries.Codec.Read(f))));
        Assert.Equal(Entries.OneOfEach.Select(e => e.GetType()).Append(typeof(Entry.SegmentSealed)).Append(typeof(Entry.JournalClosed)).ToHashSet(), Family().ToHashSet());
    }

    [Theory]
    [InlineData("{}")]
    [InlineData("null")]
    [InlineData("{\"job\":null}")]
    public void Entry_ThatLacksWhatIsAlwaysWritten_IsRefused(string payload)
    {
        EntryKind[] kinds = [.. Enum.GetValues<EntryKind>().Except([EntryKind.Reading, EntryKind.ClockReached, EntryKind.JournalClosed])];
        Assert.All(kinds, kind => Assert.Throws<InvalidDataException>(() => _entries.Codec.Read(
            new Frame(1, Entries.At, kind, 1, 1, EndsBatch: true, System.Text.Encoding.UTF8.GetBytes(payload)))));
    }

    // The segment was cut off at its birth; the one before it, and so the form that was read last, was of an older program.
    [Fact]
    public void SegmentCutOffAtItsBirth_IsBegunAnew_InTheNewestForm()
    {
        _entries.Write([new Entry.ClockReached()], segmentBytes: 1);
        File.WriteAllBytes(Segment.Named(_entries.Journal, _entries.Read().Reader.End.Last + 1).Path, new byte[10]);
        JournalEnd unborn = _entries.Read().Reader.End;
        Assert.Equal(0, unborn.Bytes);
        using (var writer = new JournalWriter(LocalDisk.Instance, _entries.Journal, _entries.Codec, unborn with { Form = 1 }))
        {
            writer.Append(new Entry.ClockReached(), Entries.At.AddMinutes(1));
            writer.Flush();
        }

        Assert.Null(_entries.Read().Reader.Damage);
    }

    [Fact]
    public void Journal_HoldsNobodysName()
    {
        _entries.Write(Entries.OneOfEach);
        Assert.DoesNotContain(Entries.Person, Encoding.UTF8.GetString(File.ReadAllBytes(_entries.LastSegment)), StringComparison.Ordinal);
    }

    [Fact]
    public void Key_Destroyed_ErasesThePersonAndNothingElse()
    {
        _entries.Write(Entries.OneOfEach);
        File.Delete(Path.Combine(_entries.Keys, "job-job-1.key"));
        File.Delete(Path.Combine(_entries.Keys, $"job-{KeyStore.OfNoJob}.key"));
        List<Entry> entries = _entries.ReadEntries();
        Assert.DoesNotContain(entries, e => Text(e).Contains(Entries.Person, StringComparison.Ordinal));
        Assert.Equal(["t1", "t2"], entries.OfType<Entry.Tapped>().Select(e => e.Tap.Id));
        Assert.Equal("bonnet", entries.OfType<Entry.PhotoAdded>().Single().Photo.Surface);
        Assert.Equal("", entries.OfType<Entry.HandedOver>().Single().Despite);
    }

    [Fact]
    public void Key_OfAnotherJob_OpensNothing()
    {
        _entries.Write(Entries.OneOfEach);
        File.WriteAllBytes(Path.Combine(_entries.Keys, "job-job-1.key"), new byte[PersonalKey.Bytes]);
        Assert.Null(_entries.ReadEntries().OfType<Entry.JobStarted>().First(e => e.Job.Id == "job-1").Job.Car);
    }

    [Fact]
    public void Journal_CutAnywhere_GivesWhatWasWholeAndGoesOnFromThere()
    {
        _entries.Write(Entries.OneOfEach);
        string segment = _entries.LastSegment;
        byte[] whole = File.ReadAllBytes(segment);
        List<int> ends = Ends(whole);
        for (int length = 0; length < whole.Length; length++)
        {
            File.WriteAllBytes(segment, whole[..length]);
            (JournalReader reader, List<Frame> frames) = _entries.Read();
            Assert.Null(reader.Damage);
            Assert.Equal(ends.Count(e => e <= length), frames.Count);
            _entries.Write([new Entry.ClockReached()]);
            Assert.Equal(frames.Count + 1, _entries.Read().Frames.Count);
            Assert.Null(_entries.Read().Reader.Damage);
        }
    }

    [Fact]
    public void Bit_FlippedBeforeTheLastFrame_IsDamageAndNeverAnotherEntry()
    {
        _entries.Write(Entries.OneOfEach);
        string segment = _entries.LastSegment;
        byte[] whole = File.ReadAllBytes(segment);
        List<string> sound = [.. _entries.Read().Frames.Select(Text)];
        int last = Ends(whole)[^2];
        var bits = new BitArray(whole);
        for (int bit = 0; bit < whole.Length * 8; bit += 3)
        {
            bits[bit] ^= true;
            bits.CopyTo(whole, 0);
            File.WriteAllBytes(segment, whole);
            (JournalReader reader, List<Frame> frames) = _entries.Read();
            Assert.True(reader.Damage is not null || bit / 8 >= last, $"bit {bit} went unseen");
            Assert.Equal(sound.Take(frames.Count), frames.Select(Text));
            bits[bit] ^= true;
        }
    }

    [Fact]
    public void Segment_Full_IsSealedAndTheNextGoesOn()
    {
        _entries.Write(Entries.OneOfEach, segmentBytes: 300);
        IReadOnlyList<Segment> segments = Segment.In(LocalDisk.Instance, _entries.Journal);
        Assert.True(segments.Count >= 3);
        Assert.Null(_entries.Read().Reader.Damage);
        Assert.Equal(Entries.OneOfEach.Select(Text), _entries.ReadEntries().Where(e => e is not Entry.SegmentSealed).Select(Text));
        _entries.Write([new Entry.ClockReached()], segmentBytes: 300);
        Assert.Null(_entries.Read().Reader.Damage);
    }

    [Fact]
    public void Seal_ThatIsNone_IsDamage_AlthoughItsChecksumIsRight()
    {
        _entries.Write(Entries.OneOfEach[..2], segmentBytes: 1);
        string segment = Segment.In(LocalDisk.Instance, _entries.Journal)[0].Path;
        byte[] bytes = File.ReadAllBytes(segment);
        int at = Segment.HeaderBytes;
        FrameFormat.TryRead(bytes.AsMemory(at), FrameFormat.Newest, out Frame first);
        at += FrameFormat.PrefixBytes + FrameFormat.FixedBodyBytes(FrameFormat.Newest) + first.Payload.Length;
        FrameFormat.TryRead(bytes.AsMemory(at), FrameFormat.Newest, out Frame seal);
        bytes[^1] = (byte)' ';
        FrameFormat.Complete(bytes.AsSpan(at), FrameFormat.Newest, seal);
        File.WriteAllBytes(segment, bytes);

        (JournalReader reader, _) = _entries.Read();

        Assert.Equal((segment, (long)at), (reader.Damage?.File, reader.Damage?.Offset));
    }

    [Fact]
    public void Segment_TakenAwayOrSwapped_IsDamage()
    {
        _entries.Write(Entries.OneOfEach, segmentBytes: 300);
        IReadOnlyList<Segment> segments = Segment.In(LocalDisk.Instance, _entries.Journal);
        byte[] second = File.ReadAllBytes(segments[1].Path);
        File.Delete(segments[1].Path);
        Assert.NotNull(_entries.Read().Reader.Damage);

        using var other = new Entries();
        other.Write(Entries.OneOfEach, segmentBytes: 300);
        File.Copy(Segment.In(LocalDisk.Instance, other.Journal)[1].Path, segments[1].Path);
        Assert.Equal(segments[1].Path, _entries.Read().Reader.Damage?.File);

        File.WriteAllBytes(segments[1].Path, second);
        Assert.Null(_entries.Read().Reader.Damage);
    }

    [Fact]
    public void Damages_OfSeveralSegments_AreAllNamed()
    {
        _entries.Write(Entries.OneOfEach, segmentBytes: 300);
        string[] hurt = [.. Segment.In(LocalDisk.Instance, _entries.Journal).Take(2).Select(s => s.Path)];
        foreach (string path in hurt)
        {
            byte[] bytes = File.ReadAllBytes(path);
            bytes[^20] ^= 1;
            File.WriteAllBytes(path, bytes);
        }

        Assert.Equal(hurt, JournalReader.DamagesIn(LocalDisk.Instance, _entries.Journal).Select(d => d.File));
    }

    [Theory]
    [InlineData(true)]
    [InlineData(false)]
    public void Segment_ThatWasDamagedAtAStart_AndIsPutBack_LeavesAWholeJournal(bool isPutBackBeforeTheNextIsFull)
    {
        _entries.Write([.. Entries.OneOfEach, new Entry.ClockReached()], segmentBytes: 300);
        Segment before = Segment.In(LocalDisk.Instance, _entries.Journal)[^2];
        byte[] sound = File.ReadAllBytes(before.Path);
        File.WriteAllBytes(before.Path, [.. sound[..60], (byte)(sound[60] ^ 1), .. sound[61..]]);
        JournalReader start = JournalReader.From(LocalDisk.Instance, _entries.Journal, Segment.In(LocalDisk.Instance, _entries.Journal)[^1].First);
        Assert.NotEmpty(start.Frames());
        Assert.Null(start.Damage);

        using (var writer = new JournalWriter(LocalDisk.Instance, _entries.Journal, _entries.Codec, start.End, segmentBytes: 2_000))
        {
            if (isPutBackBeforeTheNextIsFull)
            {
                File.WriteAllBytes(before.Path, sound);
            }

            for (int i = 0; i < 200; i++)
            {
                writer.Append(new Entry.ClockReached(), writer.LastAt);
                writer.Flush();
            }
        }

        File.WriteAllBytes(before.Path, sound);
        (JournalReader reader, List<Frame> frames) = _entries.Read();
        Assert.Null(reader.Damage);
        Assert.Empty(JournalReader.DamagesIn(LocalDisk.Instance, _entries.Journal));
        Frame seal = frames.First(f => f.Kind == EntryKind.SegmentSealed && f.Sequence > start.End.Last);
        Assert.Equal(isPutBackBeforeTheNextIsFull ? JournalReader.HashOf(LocalDisk.Instance, before) : "", EntryCodec.FindSeal(seal)!.Previous);
    }

    /// <summary>What was written by an earlier build has to be read for ever: these bytes are of 2026-11-25.</summary>
    [Fact]
    public void Reading_OfTheFirstForm_IsStillRead()
    {
        byte[] payload = Convert.FromHexString("07056261792D310361697203006024A1A9DE080000000000403440000000000040494000"[..^2]);
        var entry = (Entry.Reading)_entries.Codec.Read(new Frame(1, Entries.At, EntryKind.Reading, 1, 1, EndsBatch: true, payload));
        Assert.Equal(("bay-1", "air", 20.25, 50.5), (entry.Bay, entry.Probe, entry.AirC, entry.HumidityPct));
    }

    private static IEnumerable<Type> Family() =>
        typeof(Entry).GetNestedTypes(System.Reflection.BindingFlags.NonPublic).Where(t => t.IsSubclassOf(typeof(Entry)));

    private static List<int> Ends(byte[] segment)
    {
        var ends = new List<int>();
        int offset = Segment.HeaderBytes;
        while (FrameFormat.TryRead(segment.AsMemory(offset), FrameFormat.Newest, out _) is > 0 and var taken)
        {
            ends.Add(offset += taken);
        }

        return ends;
    }

    private static string Text(Entry entry) => System.Text.Json.JsonSerializer.Serialize<object>(entry);

    private static string Text(Frame frame) => $"{frame.Sequence} {frame.At:O} {frame.Kind} {Convert.ToHexString(frame.Payload.Span)}";
}
