using CureWatch.Service.Commands;
using CureWatch.Service.Disk;
using CureWatch.Service.Journal;
using CureWatch.Service.Settings;

namespace CureWatch.Service.Tests.Commands;

public sealed class LostJournalTests : IDisposable
{
    private const string Lost = "none, for the journal has no entry: it has lost them; restore a backup of the data folder";

    private readonly VerifiedFolder _folder = new();

    public void Dispose() => _folder.Dispose();

    [Theory]
    [InlineData("keys", "job-17.key")]
    [InlineData("photos", "00.jpg")]
    public async Task Journal_WithoutAnEntry_BesideWhatOnlyOneWithEntriesLeaves_HasLostThem(string folder, string file)
    {
        await _folder.FillAsync();
        File.WriteAllBytes(OnlySegment(), new byte[20]);
        Directory.Delete(DataFolder.KeysOf(_folder.Path), recursive: true);
        string left = VerifiedFolder.Made(Path.Combine(_folder.Path, folder));
        File.WriteAllText(Path.Combine(left, file), "");
        var fault = new Fault(left, "files", $"{file} in it", Lost);
        _folder.AssertDamaged(fault.ToString());
        Invocation start = Invocation.Of("run", "--data", _folder.Path, "--config", Path.Combine(AppContext.BaseDirectory, "config"));
        Assert.Equal((2, $"{fault}\n"), (start.ExitCode, start.Error));
    }

    // A first start whose first write was cut off, keys and photos on disks of their own.
    [Fact]
    public void Journal_WithoutAnEntry_BesideEmptyFolders_IsNew()
    {
        Directory.CreateDirectory(Path.Combine(VerifiedFolder.Made(DataFolder.KeysOf(_folder.Path)), "lost+found"));
        VerifiedFolder.Made(DataFolder.PhotosOf(_folder.Path));
        Assert.Null(LostJournal.Trace(LocalDisk.Instance, _folder.Path));
    }

    [Fact]
    public async Task Segment_ThatIsGoneWhileAServiceMayBeWritingIt_IsDamage()
    {
        await _folder.FillAsync();
        _folder.WriteBook(int.MaxValue);
        File.Delete(OnlySegment());
        var faults = new Faults();
        using (DataFolder.Hold(LocalDisk.Instance, _folder.Path, isDemo: false, faults))
        {
            Assert.Empty(faults.All);
            _folder.AssertDamaged(
                $"{DataFolder.JournalOf(_folder.Path)}: no segment, although a service may be writing one: it was deleted or moved away");
        }
    }

    private string OnlySegment() => Assert.Single(Segment.In(LocalDisk.Instance, DataFolder.JournalOf(_folder.Path))).Path;
}
