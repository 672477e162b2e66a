using CureWatch.Bays;
using CureWatch.Curing;
using CureWatch.Panels;
using CureWatch.Planning;
using CureWatch.Service.Disk;
using CureWatch.Service.Journal;

namespace CureWatch.Service.Tests.Journal;

/// <summary>One entry of every kind, and a journal in a folder of its own.</summary>
internal sealed class Entries : IDisposable
{
    public const string Person = "Robin";

    public static readonly DateTimeOffset At = new(2026, 5, 4, 8, 0, 0, TimeSpan.Zero);

    public static readonly Entry[] OneOfEach =
    [
        new Entry.EngineStarted("0.1.0"),
        new Entry.SettingsChanged(new SettingsItem("product", "paint", 1), "ab12", """{"product":"paint"}""", SettingsOrigin.File),
        new Entry.ClockReached(),
        new Entry.Reading("bay-1", "air", At.AddTicks(3), 20.25, 50.5, null),
        new Entry.Reading("bay-1", "bonnet", null, null, null, -3.125),
        new Entry.Reading("bay-1", "air", At.AddTicks(3), 20.25, 50.5, null, Sequence: 65_536),
        new Entry.RefusalsCounted([new RefusalCount("malformed", "bay-1/air", 3)]),
        new Entry.JobStarted(
            new Job(
                "job-1", "bay-1", $"car of {Person}", At,
                [
                    new Surface("bonnet", Material.Film, Material.Steel, Place.OffCar, "paint", 1, 2, 3),
                    new Surface("roof", Material.Steel, null, Place.Outside, "paint", 1, 4, 1, new NextProduct("top", 2, 3, new NextProduct("glaze", 1, 4))),
                ]),
            [new SheetPin("paint", 1, "ab12")]),
        new Entry.Tapped(
            "job-1",
            new Tap("t1", At.AddTicks(1), At.AddTicks(2), "bonnet", Did.Inspected, 1, 2, null, 19.5, Found.HighSpot, null, null, Person, $"by {Person}", "t0")),
        new Entry.Tapped("job-1", new Tap("t2", At, At, "bonnet", Did.Applied, Batch: "A-7")),
        new Entry.PhotoAdded("job-1", new Photo(new string('a', 64), 90_000, 2048, 1536, "bonnet", 1, Person)),
        new Entry.PhotoRemoved("job-1", new string('a', 64), Person),
        new Entry.HandedOver("job-1", Person, $"{Person} said so"),
        new Entry.LearningReset("paint", "bay-1", Person, $"{Person} has another batch"),
        new Entry.WorkPlanned(new PlannedWork("washing-1", "bay-2", HarmfulWork.Washing, At, At.AddHours(1), Person, $"{Person}'s car")),
        new Entry.WorkDropped("washing-1", Person, $"{Person} has no time"),
        new Entry.VisitCancelled("job-1", Person, $"{Person} comes not at all"),
        new Entry.VisitPlanned("job-1", new Visit(At, -4.5, At.AddHours(2)), Person, $"{Person} comes later"),
        new Entry.WarningChanged(4, "level-due", IsOver: true, At),
        new Entry.Ruled(0, "job-1", IsReady: true, At),
    ];

    private readonly DirectoryInfo _folder = Directory.CreateTempSubdirectory("curewatch-");

    public Entries()
    {
        Directory.CreateDirectory(Journal);
        Directory.CreateDirectory(Keys);
    }

    public string Folder => _folder.FullName;

    public string Journal => DataFolder.JournalOf(Folder);

    public string Keys => DataFolder.KeysOf(Folder);

    public EntryCodec Codec => new(new KeyStore(LocalDisk.Instance, Keys));

    public string LastSegment => Segment.In(LocalDisk.Instance, Journal)[^1].Path;

    /// <summary>Appends entries a second apart, each flushed by itself.</summary>
    public void Write(IEnumerable<Entry> entries, long segmentBytes = JournalWriter.UsualSegmentBytes)
    {
        JournalReader before = Read().Reader;
        using var writer = new JournalWriter(LocalDisk.Instance, Journal, Codec, before.End, segmentBytes);
        foreach (Entry entry in entries)
        {
            writer.Append(entry, At.AddSeconds(writer.Last));
            writer.Flush();
        }
    }

    public (JournalReader Reader, List<Frame> Frames) Read()
    {
        var reader = new JournalReader(LocalDisk.Instance, Journal);
        return (reader, [.. reader.Frames()]);
    }

    public List<Entry> ReadEntries() => [.. Read().Frames.Select(f => Codec.Read(f))];

    public void Dispose() => _folder.Delete(recursive: true);
}
