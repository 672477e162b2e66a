using System.Buffers.Binary;
using CureWatch.Bays;
using CureWatch.Curing;
using CureWatch.Panels;
using CureWatch.Service.Journal;

namespace CureWatch.Fuzz.Targets;

/// <summary>
/// A segment of a journal, as it lies in a data folder or comes out of a backup. The first byte says whether its checksums are put right, which
/// somebody with a grudge would do, and chance would not.
/// </summary>
internal sealed class SegmentTarget : FuzzTarget
{
    private const byte PutRight = (byte)'r';

    public override string Name => "segment";

    public override IEnumerable<byte[]> Seeds
    {
        get
        {
            Entry[] entries =
            [
                new Entry.EngineStarted("0.1.0"),
                new Entry.SettingsChanged(new SettingsItem(SettingsItem.Shop, "s", 0), "", FuzzShop.Document, SettingsOrigin.File),
                new Entry.ClockReached(),
                new Entry.Reading("bay-1", "air", FuzzShop.Now, 20.25, 50.5, null),
                new Entry.Reading("bay-1", "bonnet", null, null, null, -3.125, Sequence: 65_536),
                new Entry.RefusalsCounted([new RefusalCount("malformed", "bay-1/air", 3)]),
                new Entry.JobStarted(new Job("job-2", "bay-1", null, FuzzShop.Now, [new Surface("roof", Material.Film, Material.Steel, Place.Outside, "paint", 1, 1, 2)]), []),
                new Entry.Tapped("job-2", new Tap("t", FuzzShop.Now, FuzzShop.Now, "roof", Did.Applied, 1, 2, null, 19.5, null, null, null, null, null, null)),
                new Entry.HandedOver("job-2", null, null),
                new Entry.WarningChanged(4, "level-due", IsOver: true, FuzzShop.Now),
                new Entry.Ruled(0, "job-1", IsReady: true, FuzzShop.Now),
            ];
            byte[] whole = FuzzJournal.SegmentOf(entries), full = FuzzJournal.SegmentOf(entries[..1], segmentBytes: 1);
            return [[PutRight, .. whole], [PutRight, .. full], [(byte)'a', .. whole], [PutRight, .. FuzzJournal.SegmentOf(entries[2..4])]];
        }
    }

    protected override (long Fixed, long PerByte) Allowance => (8_000_000, 8_000);

    protected override void TryOn(byte[] input)
    {
        if (input.Length == 0)
        {
            return;
        }

        byte[] segment = input[1..];
        if (input[0] == PutRight)
        {
            PutChecksumsRight(segment);
        }

        FuzzJournal journal = FuzzJournal.Holding(segment);
        JournalReader reader = journal.Reader();
        (long last, DateTimeOffset at) = (0, DateTimeOffset.MinValue);
        foreach (Frame frame in reader.Frames())
        {
            BrokenPromiseException.Unless(frame.Sequence == last + 1 && frame.At >= at, $"frame {frame.Sequence} after frame {last}");
            (last, at) = (frame.Sequence, frame.At);
            TryEntry(journal, frame);
        }

        BrokenPromiseException.Unless(reader.End.Last == last, "it ends elsewhere than its frames");
        Fold(journal);
        BrokenPromiseException.Unless(reader.Damage is null || !string.IsNullOrEmpty(reader.Damage.ToString()), "a damage without a word");
    }

    /// <summary>As a start does, and a verification of a backup.</summary>
    private static void Fold(FuzzJournal journal)
    {
        try
        {
            journal.Recovery().Run();
        }
        catch (InvalidDataException e)
        {
            BrokenPromiseException.Unless(e.Message.Length > 0, "it does not say why not");
        }
    }

    private static void TryEntry(FuzzJournal journal, Frame frame)
    {
        try
        {
            _ = journal.Codec.Read(frame);
        }
        catch (InvalidDataException e)
        {
            BrokenPromiseException.Unless(e.Message.Contains($"{frame.Sequence}", StringComparison.Ordinal), $"it does not say which frame: {e.Message}");
        }
    }

    private static void PutChecksumsRight(Span<byte> segment)
    {
        if (segment.Length < Segment.HeaderBytes)
        {
            return;
        }

        BinaryPrimitives.WriteUInt32LittleEndian(segment[36..], Crc32C.Of(segment[..36]));
        Span<byte> rest = segment[Segment.HeaderBytes..];
        while (rest.Length >= FrameFormat.PrefixBytes
            && BinaryPrimitives.ReadInt32LittleEndian(rest) is >= 0 and var length && length <= rest.Length - FrameFormat.PrefixBytes)
        {
            BinaryPrimitives.WriteUInt32LittleEndian(rest[4..], Crc32C.Of(rest.Slice(FrameFormat.PrefixBytes, length)));
            rest = rest[(FrameFormat.PrefixBytes + length)..];
        }
    }
}
