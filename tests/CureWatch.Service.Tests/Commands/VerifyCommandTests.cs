using CureWatch.Service.Disk;
using CureWatch.Service.Journal;
using CureWatch.Service.Snapshots;

namespace CureWatch.Service.Tests.Commands;

public sealed class VerifyCommandTests : IDisposable
{
    private readonly VerifiedFolder _folder = new();

    public void Dispose() => _folder.Dispose();

    [Fact]
    public async Task Folder_WithoutABook_IsWhole()
    {
        await _folder.FillAsync();
        _folder.AssertWhole($"{_folder.BookPath}: there is none; the next start writes it from the journal");
    }

    [Fact]
    public async Task Journal_AndBookThatAreDamaged_AreBothNamed()
    {
        await _folder.FillAsync();
        File.WriteAllText(Path.Combine(VerifiedFolder.Made(DataFolder.BookOf(_folder.Path)), "book.db"), "no book");
        string segment = Segment.In(LocalDisk.Instance, DataFolder.JournalOf(_folder.Path))[0].Path;
        byte[] bytes = File.ReadAllBytes(segment);
        bytes[100] ^= 1;
        File.WriteAllBytes(segment, bytes);

        Invocation run = Invocation.Of("verify", "--data", _folder.Path);

        Assert.Equal(1, run.ExitCode);
        Assert.Equal([segment, _folder.BookPath], run.Output.TrimEnd().Split('\n').Select(l => l[..l.IndexOf(':', StringComparison.Ordinal)]));
    }

    [Theory]
    [InlineData(31)]
    [InlineData(32)]
    public async Task Key_ThatDoesNotFit_IsNamed(int bytes)
    {
        await _folder.FillAsync();
        string key = Path.Combine(DataFolder.KeysOf(_folder.Path), "job-job-1.key");
        File.WriteAllBytes(key, new byte[bytes]);
        _folder.AssertDamaged($"{key}: it is not the key that sealed what the journal holds.");
    }

    [Fact]
    public async Task Key_ThatIsGone_IsTold_AndNoDamage()
    {
        await _folder.FillAsync();
        File.Delete(Path.Combine(DataFolder.KeysOf(_folder.Path), "job-job-1.key"));
        Invocation run = Invocation.Of("verify", "--data", _folder.Path);
        Assert.Contains($"{DataFolder.KeysOf(_folder.Path)}: no key of the job job-1: what it sealed was erased, or is lost\n", run.Output, StringComparison.Ordinal);
        Assert.Equal(0, run.ExitCode);
    }

    // As where a backup was restored by another user than the service's.
    [Fact]
    public async Task Journal_ThatCannotBeOpened_IsRefused_ByAStartToo()
    {
        await _folder.FillAsync();
        string segment = Assert.Single(Segment.In(LocalDisk.Instance, DataFolder.JournalOf(_folder.Path))).Path;
        File.Delete(segment);
        Directory.CreateDirectory(segment);
        Invocation.Of("verify", "--data", _folder.Path).AssertRefused($"{_folder.Path}: data folder");
        Invocation.Of("replay", "--data", _folder.Path).AssertRefused($"{_folder.Path}: journal");
        Invocation.Of("run", "--data", _folder.Path, "--config", Path.Combine(AppContext.BaseDirectory, "config")).AssertRefused($"{_folder.Path}: journal");
    }

    [Fact]
    public async Task Snapshot_ThatIsDamaged_IsNamed()
    {
        await _folder.FillAsync();
        new SnapshotFolder(LocalDisk.Instance, _folder.Path).Take(_folder.Pumped.Register, _folder.Pumped.Register.Sequence);
        _folder.AssertWhole($"{_folder.BookPath}: there is none; the next start writes it from the journal");
        string snapshot = Assert.Single(Directory.GetFiles(DataFolder.SnapshotsOf(_folder.Path)));
        File.WriteAllBytes(snapshot, File.ReadAllBytes(snapshot)[..^1]);
        _folder.AssertDamaged($"{snapshot}: it is not what was written; the next start does without it");
    }

    // Nothing else tells where there is no book.
    [Fact]
    public async Task Journal_ThatEndsBeforeASnapshot_IsDamage()
    {
        await _folder.FillAsync();
        long last = _folder.Pumped.Register.Sequence;
        new SnapshotFolder(LocalDisk.Instance, _folder.Path).Take(_folder.Pumped.Register, _folder.Pumped.Register.Sequence);
        string snapshot = Assert.Single(Directory.GetFiles(DataFolder.SnapshotsOf(_folder.Path)));
        string segment = Assert.Single(Segment.In(LocalDisk.Instance, DataFolder.JournalOf(_folder.Path))).Path;
        File.WriteAllBytes(segment, []);
        _folder.AssertDamaged($"{snapshot}: after entry {last}, and the journal ends with 0: it has lost its end");
        Invocation start = Invocation.Of("run", "--data", _folder.Path, "--config", Path.Combine(AppContext.BaseDirectory, "config"));
        Assert.Equal((2, ""), (start.ExitCode, start.Output));
        Assert.Contains("it has lost them; restore a backup of the data folder", start.Error, StringComparison.Ordinal);
    }

    [Fact]
    public async Task RetiredPart_ThatIsDamaged_IsNamed()
    {
        await _folder.FillAsync();
        string retired = Path.Combine(DataFolder.JournalOf(_folder.Path), $"{0:D20}.retired");
        File.WriteAllText(retired, "{}");
        Invocation run = Invocation.Of("verify", "--data", _folder.Path);
        Assert.Equal(1, run.ExitCode);
        Assert.Contains($"{retired}: /form: ", run.Output, StringComparison.Ordinal);
    }

    [Fact]
    public async Task Backup_ThatIsSound_IsFoundWhole_AndADamagedOneNamed()
    {
        await _folder.FillAsync();
        string file = Path.Combine(_folder.Path, "backup.zip");
        Assert.Equal(0, Invocation.Of("backup", file, "--data", _folder.Path).ExitCode);
        Invocation run = Invocation.Of("verify", "--backup", file);
        Assert.Equal((0, $"{file}: {_folder.Pumped.Register.Sequence} entries in 1 segments, no damage"), (run.ExitCode, run.Output.Split('\n')[0]));

        byte[] bytes = File.ReadAllBytes(file);
        bytes[200] ^= 1;
        File.WriteAllBytes(file, bytes);
        run = Invocation.Of("verify", "--backup", file);
        Assert.Equal(1, run.ExitCode);
        Assert.StartsWith($"{file}: entry journal/00000000000000000001.journal: ", run.Output, StringComparison.Ordinal);
        Invocation.Of("verify", "--backup", "nothing.zip").AssertRefused("--backup");
        Invocation.Of("verify", "--backup", file, "--data", _folder.Path).AssertRefused("--data");
    }
}
