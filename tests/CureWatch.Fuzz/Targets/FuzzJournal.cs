using System.Buffers;
using System.Text.Json;
using CureWatch.Benchmarks.Power;
using CureWatch.Service.Disk;
using CureWatch.Service.Journal;
using CureWatch.Service.Pump;

namespace CureWatch.Fuzz.Targets;

/// <summary>A journal and its keys, on a disk in memory.</summary>
internal sealed class FuzzJournal
{
    private const string Folder = "/journal";
    private const string Keys = "/keys";

    private readonly PowerCutDisk _disk = new(0);

    public FuzzJournal()
    {
        _disk.MakeFolder(Folder);
        _disk.MakeFolder(Keys);
        Codec = new EntryCodec(new KeyStore(_disk, Keys));
    }

    public EntryCodec Codec { get; }

    /// <summary>The first segment of a journal of these entries, a second apart.</summary>
    public static byte[] SegmentOf(IReadOnlyList<Entry> entries, long segmentBytes = JournalWriter.UsualSegmentBytes)
    {
        var journal = new FuzzJournal();
        using (var writer = new JournalWriter(journal._disk, Folder, journal.Codec, JournalEnd.Empty, segmentBytes))
        {
            foreach (Entry entry in entries)
            {
                writer.Append(entry, FuzzShop.Now.AddSeconds(writer.Last));
                writer.Flush();
            }

            writer.Close();
        }

        return DurableFile.Read(journal._disk, Segment.In(journal._disk, Folder)[0].Path);
    }

    /// <summary>A journal whose first segment holds these bytes.</summary>
    public static FuzzJournal Holding(byte[] segment)
    {
        var journal = new FuzzJournal();
        using IDiskFile file = journal._disk.Open(Segment.Named(Folder, 1).Path, FileUse.Make);
        file.Write(segment, 0);
        return journal;
    }

    public JournalReader Reader() => new(_disk, Folder);

    public Recovery Recovery() => new(_disk, Folder, Codec);

    /// <summary>What is written is what is read, names of people included.</summary>
    public static void CheckRoundTrip(IEnumerable<Entry> entries)
    {
        var journal = new FuzzJournal();
        foreach (Entry entry in entries)
        {
            var payload = new ArrayBufferWriter<byte>();
            EntryKind kind = journal.Codec.Write(entry, payload);
            Entry read = journal.Codec.Read(new Frame(1, FuzzShop.Now, kind, EntryCodec.VersionOf(entry), 1, true, payload.WrittenMemory));
            BrokenPromiseException.Unless(Text(read) == Text(entry), $"the journal holds another {entry.GetType().Name}");
        }
    }

    private static string Text(Entry entry) => JsonSerializer.Serialize(entry, entry.GetType());
}
