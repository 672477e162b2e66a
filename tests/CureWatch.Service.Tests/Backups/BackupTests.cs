using System.IO.Compression;
using System.Text.Json;
using CureWatch.Service.Backups;
using CureWatch.Service.Disk;
using CureWatch.Service.Journal;
using CureWatch.Service.Settings;
using CureWatch.Service.Tests.Commands;
using CureWatch.Service.Tests.Pump;

namespace CureWatch.Service.Tests.Backups;

public sealed class BackupTests : IAsyncLifetime
{
    private ShopData _data = null!;

    private string Target => _data.Elsewhere("restored");

    public async ValueTask InitializeAsync() => _data = await ShopData.FilledAsync();

    public ValueTask DisposeAsync()
    {
        _data.Dispose();
        return ValueTask.CompletedTask;
    }

    [Fact]
    public void Restored_IsFileByFileWhatWasBackedUp()
    {
        _data.Pumped.Stop();
        Backup backup = _data.BackUp();
        Assert.Equal(0, Invocation.Of("restore", backup.Path, "--data", Target).ExitCode);
        Assert.True(Segment.In(LocalDisk.Instance, DataFolder.JournalOf(Target)).Count > 2);
        Assert.Equal(ShopData.Files(_data.Folder), ShopData.Files(Target).Where(f => !f.StartsWith("lock ", StringComparison.Ordinal)));
    }

    [Fact]
    public void Restored_FoldsToTheSameState_AndTellsTheSameOfAJob_AndVerifies()
    {
        _data.Pumped.Stop();
        Backup backup = _data.BackUp();
        Assert.Equal(0, Invocation.Of("restore", backup.Path, "--data", Target).ExitCode);
        Assert.Equal(States.Text(ShopData.Fold(_data.Folder)), States.Text(ShopData.Fold(Target)));
        Assert.Equal("grey", ShopData.Fold(Target).Shop!.Find("job-1")!.Job.Car);
        string until = UtcText.Of(_data.Pumped.Clock.GetUtcNow().AddHours(20));
        Invocation[] told = [.. new[] { _data.Folder, Target }.Select(f => Invocation.Of("replay", "--data", f, "--job", "job-1", "--until", until, "--json"))];
        Assert.Equal(told[0], told[1]);
        Assert.NotEmpty(told[0].Output);
        Invocation verified = Invocation.Of("verify", "--data", Target);
        Assert.Equal((0, ""), (verified.ExitCode, verified.Error));
    }

    [Fact]
    public async Task WrittenWhileThePumpRuns_HoldsAllThatWasAcknowledgedBefore_AndTheServiceGoesOn()
    {
        using var stop = new CancellationTokenSource();
        Task load = Task.Run(async () =>
        {
            while (!stop.IsCancellationRequested)
            {
                await _data.ReadAsync(1);
            }
        }, TestContext.Current.CancellationToken);
        long last = 0;
        for (int i = 0; i < 5; i++)
        {
            long acknowledged = _data.Pumped.Register.Sequence;
            Backup backup = _data.BackUp($"{i}.zip");
            Assert.True(backup.Manifest.Journal.Last >= acknowledged); // what is on disk is published a moment later
            Assert.NotNull(Restore.Of(LocalDisk.Instance, backup.Path, _data.Elsewhere($"{i}"), new Faults()));
            last = ShopData.Fold(_data.Elsewhere($"{i}")).Sequence;
            Assert.Equal(backup.Manifest.Journal.Last, last);
        }

        await stop.CancelAsync();
        await load;
        Assert.True(_data.Pumped.Register.Sequence >= last);
    }

    [Fact]
    public void UnfinishedWrite_StaysOutOfIt()
    {
        _data.Pumped.Stop();
        string segment = Segment.In(LocalDisk.Instance, DataFolder.JournalOf(_data.Folder))[^1].Path;
        long whole = new FileInfo(segment).Length;
        File.AppendAllText(segment, "half a frame");
        Backup backup = _data.BackUp();
        Assert.Equal(whole, backup.Manifest.Files.Last(f => f.Role == "journal").Bytes);
        Assert.NotNull(Restore.Of(LocalDisk.Instance, backup.Path, Target, new Faults()));
    }

    [Fact]
    public void SegmentThatWasJustBegun_StaysOutOfIt()
    {
        _data.Pumped.Stop();
        using (var journal = new JournalWriter(
            LocalDisk.Instance, DataFolder.JournalOf(_data.Folder), new EntryCodec(new KeyStore(LocalDisk.Instance, DataFolder.KeysOf(_data.Folder))), _data.Pumped.Recover().End, segmentBytes: 1))
        {
            journal.Append(new Entry.ClockReached(), _data.Pumped.Clock.GetUtcNow());
            journal.Flush();
        }

        long last = _data.Pumped.Recover().End.Last;
        File.WriteAllBytes(Segment.Named(DataFolder.JournalOf(_data.Folder), last + 1).Path, new byte[10]);
        Assert.Equal(last, _data.BackUp().Manifest.Journal.Last);
    }

    [Fact]
    public void DamagedJournal_IsNotBackedUp_AndNothingIsLeft()
    {
        _data.Pumped.Stop();
        string segment = Segment.In(LocalDisk.Instance, DataFolder.JournalOf(_data.Folder))[0].Path;
        byte[] bytes = File.ReadAllBytes(segment);
        bytes[60] ^= 1;
        File.WriteAllBytes(segment, bytes);
        Invocation run = Invocation.Of("backup", _data.Elsewhere("backup.zip"), "--data", _data.Folder);
        run.AssertRefused($"{segment}: byte 40");
        Assert.Contains("put the file back from a backup that has it", run.Error, StringComparison.Ordinal);
        Assert.False(File.Exists(_data.Elsewhere("backup.zip")) || File.Exists(_data.Elsewhere("backup.zip.new")));
    }

    [Fact]
    public void NameThatIsTaken_IsRefused()
    {
        _data.BackUp();
        Invocation.Of("backup", _data.Elsewhere("backup.zip"), "--data", _data.Folder).AssertRefused($"{_data.Elsewhere("backup.zip")}: file");
    }

    [Fact]
    public void FolderWithoutAJournal_IsRefused() =>
        Invocation.Of("backup", _data.Elsewhere("backup.zip"), "--data", _data.Elsewhere("nothing")).AssertRefused($"{_data.Elsewhere("nothing")}: data folder");

    [Fact]
    public async Task TwoAtOnceToOneName_AreOneWholeBackup_AndOneRefusal()
    {
        _data.Pumped.Stop();
        Invocation[] both = await Task.WhenAll(Enumerable.Range(0, 2).Select(_ =>
            Task.Run(() => Invocation.Of("backup", _data.Elsewhere("backup.zip"), "--data", _data.Folder), TestContext.Current.CancellationToken)));
        Assert.Single(both, b => b.ExitCode == 0);
        Assert.Equal(0, Invocation.Of("verify", "--backup", _data.Elsewhere("backup.zip")).ExitCode);
        Assert.Empty(Directory.GetFiles(Path.GetDirectoryName(_data.Elsewhere("backup.zip"))!, "*.new"));
    }

    [Fact]
    public void Backup_WithAKeyThatFitsNothing_IsRefused()
    {
        _data.Pumped.Stop();
        string key = Directory.GetFiles(DataFolder.KeysOf(_data.Folder)).First(k => k.Contains("job-1", StringComparison.Ordinal));
        File.WriteAllBytes(key, new byte[PersonalKey.Bytes]);
        _data.BackUp();
        Invocation.Of("restore", _data.Elsewhere("backup.zip"), "--data", _data.Elsewhere("new")).AssertRefused($"{_data.Elsewhere("backup.zip")}: keys");
        Assert.False(Directory.Exists(_data.Elsewhere("new")));
    }

    // A file there may have a segment's name, and no start would get past it.
    [Theory]
    [InlineData("journal")]
    [InlineData("keys")]
    [InlineData("book")]
    [InlineData("snapshots")]
    public void Backup_AmongWhatIsBackedUp_IsRefused(string room)
    {
        string file = Path.Combine(_data.Folder, "keys", "..", room, "00000000000000009999.journal");
        Invocation.Of("backup", file, "--data", _data.Folder).AssertRefused($"{file}: file");
        Assert.False(File.Exists(file));
    }

    [Fact]
    public void Backup_TellsWhatIsInIt_AndIsNobodyElses()
    {
        _data.Pumped.Stop();
        Invocation run = Invocation.Of("backup", _data.Elsewhere("backup.zip"), "--data", _data.Folder, "--json");
        JsonElement told = JsonDocument.Parse(run.Output).RootElement;
        Assert.Equal(new FileInfo(_data.Elsewhere("backup.zip")).Length, told.GetProperty("bytes").GetInt64());
        Assert.Equal(_data.Folder, told.GetProperty("data").GetString());
        Assert.Equal(_data.Pumped.Register.Sequence, told.GetProperty("journal").GetProperty("last").GetInt64());
        using ZipArchive zip = ZipFile.OpenRead(_data.Elsewhere("backup.zip"));
        JsonElement manifest = JsonDocument.Parse(zip.GetEntry("manifest.json")!.Open()).RootElement;
        Assert.Equal(
            ["journal", "key"],
            manifest.GetProperty("files").EnumerateArray().Select(f => f.GetProperty("role").GetString()).Distinct().Order(StringComparer.Ordinal));
        if (!OperatingSystem.IsWindows())
        {
            Assert.Equal(UnixFileMode.UserRead | UnixFileMode.UserWrite, File.GetUnixFileMode(_data.Elsewhere("backup.zip")));
        }
    }

    /// <summary>Cut off at any of its writes and moves, there is no file of that name, or it is whole; and the next try does it.</summary>
    [Fact]
    public void CutOffAnywhere_LeavesNoHalfBackup()
    {
        _data.Pumped.Stop();
        bool isCut = true;
        for (int changes = 0; isCut; changes++)
        {
            string path = _data.Elsewhere($"cut-{changes}.zip");
            var disk = new CutDisk(changes);
            Backup? cut = Backup.Write(
                disk, _data.Folder, path, "test", _data.Pumped.Clock.GetUtcNow(), new Faults(), TestContext.Current.CancellationToken);
            isCut = disk.IsCut;
            Assert.Equal(!isCut, cut is not null);
            if (!File.Exists(path))
            {
                _data.BackUp($"cut-{changes}.zip");
            }

            using Archive archive = Archive.Open(LocalDisk.Instance, path, new Faults())!;
            Assert.True(archive.ReadAll(new Faults()));
        }
    }

    /// <summary>A write, a flush or a move that fails anywhere leaves no folder; the one that does not gives all of it.</summary>
    [Fact]
    public void RestoreThatFailsAnywhere_LeavesNothing()
    {
        _data.Pumped.Stop();
        string backup = _data.BackUp().Path;
        bool isCut = true;
        for (int changes = 0; isCut; changes++)
        {
            var disk = new CutDisk(changes);
            var faults = new Faults();
            Manifest? restored = Restore.Of(disk, backup, Target, faults);
            isCut = disk.IsCut;
            Assert.Equal((!isCut, isCut ? 1 : 0), (restored is not null, faults.Count));
            Assert.Equal(!isCut, Directory.Exists(Target));
        }

        Assert.Equal(States.Text(ShopData.Fold(_data.Folder)), States.Text(ShopData.Fold(Target)));
    }

    [Fact]
    public void DemosMark_IsKept()
    {
        File.WriteAllText(Path.Combine(_data.Folder, "demo"), "invented data\n");
        Backup backup = _data.BackUp();
        Assert.True(Restore.Of(LocalDisk.Instance, backup.Path, Target, new Faults())!.IsDemo);
        Assert.True(File.Exists(Path.Combine(Target, "demo")));
    }
}
