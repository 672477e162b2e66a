using CureWatch.Service.Backups;
using CureWatch.Service.Book;
using CureWatch.Service.Disk;
using CureWatch.Service.Journal;
using CureWatch.Service.Pump;
using CureWatch.Service.Settings;
using CureWatch.Service.Snapshots;
using CureWatch.Service.Tests.Book;
using CureWatch.Service.Tests.Commands;
using CureWatch.Service.Tests.Journal;
using CureWatch.Service.Tests.Pump;

namespace CureWatch.Service.Tests.Backups;

public sealed class RetirementTests : IAsyncLifetime
{
    private readonly Faults _faults = new();
    private ShopData _data = null!;

    private string Shelf => Directory.CreateDirectory(_data.Elsewhere("nights")).FullName;

    private string Journal => DataFolder.JournalOf(_data.Folder);

    private IReadOnlyList<Segment> Segments => Segment.In(LocalDisk.Instance, Journal);

    private Backup Newest => _data.BackUp($"{Directory.GetFiles(_data.Elsewhere(""), "*.zip").Length}.zip");

    public async ValueTask InitializeAsync()
    {
        _data = await ShopData.FilledAsync();
        await _data.ReadAsync(150);
        _data.Pumped.Stop();
        Assert.True(Segments.Count > 5);
    }

    public ValueTask DisposeAsync()
    {
        _data.Dispose();
        return ValueTask.CompletedTask;
    }

    [Fact]
    public void OldSegments_MoveToAnArchive_AndTheJournalGoesOnAfterThem()
    {
        Segment third = Segments[2];
        RetiredPart part = Run(third.First)!;
        Assert.Equal((1, third.First - 1), (part.First, part.Last));
        Assert.Equal(third, Segments[0]);
        var reader = new JournalReader(LocalDisk.Instance, Journal);
        Assert.Equal(third.First, reader.Frames().ToList()[0].Sequence);
        Assert.Null(reader.Damage);
        Assert.Empty(JournalReader.DamagesIn(LocalDisk.Instance, Journal));
    }

    [Fact]
    public void Retired_WithoutTheFileThatTellsOfIt_IsDamage()
    {
        RetiredPart part = Run(Segments[2].First)!;
        File.Delete(Path.Combine(Journal, part.FileName));
        Assert.StartsWith("begins with frame", Assert.Single(JournalReader.DamagesIn(LocalDisk.Instance, Journal)).What, StringComparison.Ordinal);
        File.WriteAllText(Path.Combine(Journal, part.FileName), "nonsense");
        Assert.Contains(part.FileName, JournalReader.DamagesIn(LocalDisk.Instance, Journal).First().What, StringComparison.Ordinal);
    }

    [Fact]
    public void NothingGoes_ThatIsNeeded_Young_NotInTheBackup_OrTheLast()
    {
        Backup backup = Newest;
        Assert.Null(Run(1));
        Assert.Null(Run(Segments[1].First - 1));
        Assert.Null(Run(long.MaxValue, backup.Manifest, Entries.At.AddMinutes(-1)));
        Assert.Null(Run(long.MaxValue, backup.Manifest with { Files = backup.Manifest.Files.RemoveAt(0) }));
        Segment last = Segments[^1];
        Assert.Equal(last.First - 1, Run(long.MaxValue)!.Last);
        Assert.Equal([last], Segments);
    }

    [Fact]
    public void Segment_ThatIsNotWhatTheBackupHas_Stays()
    {
        Manifest backup = Newest.Manifest;
        byte[] bytes = File.ReadAllBytes(Segments[0].Path);
        bytes[60] ^= 1;
        File.WriteAllBytes(Segments[0].Path, bytes);
        int before = Segments.Count;
        Assert.Null(Run(Segments[2].First, backup));
        Assert.Contains(_faults.All, f => f.Seen == "other files than the journal's");
        Assert.Equal(before, Segments.Count);
        Assert.Empty(Directory.GetFiles(Journal, "*.retired"));
    }

    [Fact]
    public void PartsPutBack_GiveTheWholeJournal_AndTheSameState()
    {
        string whole = States.Text(ShopData.Fold(_data.Folder));
        IReadOnlyList<string> files = ShopData.Files(Journal);
        string[] archives = [.. new[] { Run(Segments[2].First)!, Run(Segments[1].First)! }.Select(p => Path.Combine(Shelf, p.Archive))];
        string later = Newest.Path;

        string target = _data.Elsewhere("restored");
        Assert.Equal(0, Invocation.Of("restore", later, "--data", target, "--journal", archives[0], "--journal", archives[1]).ExitCode);
        Assert.Equal(files, ShopData.Files(DataFolder.JournalOf(target)));
        Assert.Equal(whole, States.Text(ShopData.Fold(target)));
        Assert.Equal(0, Invocation.Of("verify", "--data", target).ExitCode);

        Assert.NotNull(Restore.Of(LocalDisk.Instance, later, _data.Elsewhere("short"), _faults));
        Assert.Equal(ShopData.Files(Journal), ShopData.Files(DataFolder.JournalOf(_data.Elsewhere("short"))));
    }

    // A restored folder has no book, and one that breaks is written anew, also where the beginning of the journal is in an archive.
    [Fact]
    public async Task Book_WrittenAfterARetirement_HasTheCarsThatAreHere_AndFitsTheJournal()
    {
        _data.Pumped.Start(ShopData.SegmentBytes);
        await _data.Pumped.Ask(new Arrival.HandOver("job-1", "Alex", "it had to"));
        _data.Pumped.Stop();
        IReadOnlyList<Step> steps = [.. StepsAfter(0)];
        string book = Directory.CreateDirectory(DataFolder.BookOf(_data.Folder)).FullName;
        Books.Write(Books.New(book), steps);
        long kept = Segments[3].First;
        new SnapshotFolder(LocalDisk.Instance, _data.Folder).Take(steps[(int)kept - 1].After, kept);
        Assert.NotNull(Run(kept));
        Assert.Equal(0, Invocation.Of("verify", "--data", _data.Folder).ExitCode);

        Directory.Delete(book, recursive: true);
        IReadOnlyList<Step> left = [.. StepsAfter(0)];
        Assert.Equal((kept + 1, steps[^1].Sequence), (left[0].Sequence, left[^1].Sequence));
        Books.Write(Books.New(Directory.CreateDirectory(book).FullName), left);
        Assert.Equal(0, Invocation.Of("verify", "--data", _data.Folder).ExitCode);
        using var anew = new OpenBook(Books.Found(book));
        BookedJob job = anew.Queries.Job("job-1")!;
        Assert.Equal((1, steps.First(s => s.Entry is Entry.JobStarted).At, true), (job.Number, job.StartedAt, job.Left?.WasHeld));
    }

    [Fact]
    public void Part_IsNoBackup_AndBelongsToItsJournal()
    {
        string part = Path.Combine(Shelf, Run(Segments[2].First)!.Archive);
        Invocation.Of("restore", part, "--data", _data.Elsewhere("a")).AssertRefused($"{part}: manifest.json");
        using var stranger = new ShopData();
        stranger.Pumped.Stop();
        string other = stranger.BackUp().Path;
        Invocation.Of("restore", other, "--data", _data.Elsewhere("a"), "--journal", part).AssertRefused($"{part}: manifest.json");
        Assert.False(Directory.Exists(_data.Elsewhere("a")));
    }

    [Fact]
    public void Rotation_LeavesTheArchivesOfParts()
    {
        RetiredPart part = Run(Segments[2].First)!;
        var shelf = new BackupShelf(LocalDisk.Instance, Shelf, "test-shop");
        Assert.Empty(shelf.All());
        Assert.Empty(shelf.Rotate(new BackupSettings(Shelf, default, 0, 0, 0), TimeZoneInfo.Utc, part.JournalId, DateTimeOffset.MaxValue));
        Assert.True(File.Exists(Path.Combine(Shelf, part.Archive)));
    }

    /// <summary>Cut off at any of its writes, moves and deletions, the journal is whole or begins after a part that is told; and the next night goes on.</summary>
    [Fact]
    public void CutOffAnywhere_LosesNothing()
    {
        Manifest backup = Newest.Manifest;
        long needed = Segments[3].First;
        string[] frames = [.. new JournalReader(LocalDisk.Instance, Journal).Frames().Select(f => $"{f.Sequence} {f.At:O} {f.Kind}")];
        bool isCut = true;
        for (int calls = 0; isCut; calls++)
        {
            string copy = _data.Elsewhere($"cut-{calls}"), nights = Directory.CreateDirectory(_data.Elsewhere($"nights-{calls}")).FullName;
            CopyFolder(Journal, copy);
            var disk = new CutDisk(calls);
            try
            {
                Run(disk, copy, nights, needed, backup);
            }
            catch (IOException)
            {
                // The process is gone.
            }

            isCut = disk.IsCut;
            AssertNothingLost(copy, nights, frames);
            var faults = new Faults();
            new Retirement(LocalDisk.Instance, copy, new BackupShelf(LocalDisk.Instance, nights, "test-shop"), faults)
                .Run(backup, needed, DateTimeOffset.MaxValue, TestContext.Current.CancellationToken);
            Assert.Empty(faults.All);
            Assert.Equal(needed, Segment.In(LocalDisk.Instance, copy)[0].First);
            AssertNothingLost(copy, nights, frames);
        }
    }

    private IEnumerable<Step> StepsAfter(long sequence)
    {
        using DataFolder folder = DataFolder.Hold(LocalDisk.Instance, _data.Folder, isDemo: false, _faults)!;
        return [.. new JournalSteps(folder).After(sequence)];
    }

    private static void AssertNothingLost(string journal, string nights, string[] frames)
    {
        var reader = new JournalReader(LocalDisk.Instance, journal);
        string[] here = [.. reader.Frames().Select(f => $"{f.Sequence} {f.At:O} {f.Kind}")];
        Assert.Null(reader.Damage);
        Assert.Equal(frames[^here.Length..], here);
        long gone = frames.Length - here.Length;
        Assert.True(gone == 0 || RetiredPart.In(LocalDisk.Instance, journal).Any(p =>
            p.Last >= gone && Archive.Open(LocalDisk.Instance, Path.Combine(nights, p.Archive), new Faults()) is { } archive && Whole(archive)));
    }

    private static bool Whole(Archive archive)
    {
        using (archive)
        {
            return archive.ReadAll(new Faults());
        }
    }

    private RetiredPart? Run(long needed) => Run(needed, Newest.Manifest);

    private RetiredPart? Run(long needed, Manifest backup, DateTimeOffset? before = null) =>
        new Retirement(LocalDisk.Instance, Journal, new BackupShelf(LocalDisk.Instance, Shelf, "test-shop"), _faults)
            .Run(backup, needed, before ?? DateTimeOffset.MaxValue, TestContext.Current.CancellationToken);

    private static void Run(IDisk disk, string journal, string nights, long needed, Manifest backup)
    {
        var faults = new Faults();
        new Retirement(disk, journal, new BackupShelf(disk, nights, "test-shop"), faults).Run(backup, needed, DateTimeOffset.MaxValue, TestContext.Current.CancellationToken);
        if (faults.Count > 0)
        {
            throw new IOException(faults.All[0].ToString());
        }
    }

    private static void CopyFolder(string from, string to)
    {
        Directory.CreateDirectory(to);
        foreach (string file in Directory.GetFiles(from))
        {
            File.Copy(file, Path.Combine(to, Path.GetFileName(file)));
        }
    }
}
