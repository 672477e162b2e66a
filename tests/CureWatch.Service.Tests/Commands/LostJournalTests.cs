using CureWatch.Service.Commands;
using CureWatch.Service.Disk;
using CureWatch.Service.Journal;
using CureWatch.Service.Settings;

namespace CureWatch.Service.Tests.Commands;

public sealed class LostJournalTests : IDisposable
{
    private readonly VerifiedFolder _folder = new();

    public void Dispose() => _folder.Dispose();

    [Theory]
    [InlineData("keys", "job-17.key")]
    [InlineData("photos", "0123456789abcdef0123456789abcdef0123456789abcdef0123456789abcdef.jpg")]
    [InlineData("snapshots", "00000000000000000017.snapshot")]
    public async Task Journal_WithoutAnEntry_BesideWhatOnlyOneWithEntriesLeaves_HasLostThem(string folder, string file)
    {
        await _folder.FillAsync();
        File.WriteAllBytes(OnlySegment(), new byte[20]);
        Directory.Delete(DataFolder.KeysOf(_folder.Path), recursive: true);
        string left = Path.Combine(VerifiedFolder.Made(Path.Combine(_folder.Path, folder)), file);
        File.WriteAllText(left, "");
        Assert.StartsWith($"{left}: ", LostJournal.Trace(LocalDisk.Instance, _folder.Path)!.ToString(), StringComparison.Ordinal);
        Assert.Equal(1, Invocation.Of("verify", "--data", _folder.Path).ExitCode);
        Invocation start = Invocation.Of("run", "--data", _folder.Path, "--config", Path.Combine(AppContext.BaseDirectory, "config"));
        Assert.Equal(2, start.ExitCode);
        Assert.Contains("it has lost them; restore a backup of the data folder", start.Error, StringComparison.Ordinal);
    }

    // A first start whose first write was cut off; the keys on a disk of their own that somebody has looked at.
    [Fact]
    public void Journal_WithoutAnEntry_BesideNothingOfItsOwn_IsNew()
    {
        Directory.CreateDirectory(Path.Combine(VerifiedFolder.Made(DataFolder.KeysOf(_folder.Path)), "lost+found"));
        File.WriteAllText(Path.Combine(DataFolder.KeysOf(_folder.Path), ".DS_Store"), "");
        VerifiedFolder.Made(DataFolder.PhotosOf(_folder.Path));
        Assert.Null(LostJournal.Trace(LocalDisk.Instance, _folder.Path));
    }

    [Fact]
    public async Task Segment_ThatIsGoneWhileAServiceMayBeWritingIt_IsNoted()
    {
        await _folder.FillAsync();
        _folder.WriteBook(int.MaxValue);
        File.Delete(OnlySegment());
        var faults = new Faults();
        using (DataFolder.Hold(LocalDisk.Instance, _folder.Path, isDemo: false, faults))
        {
            Assert.Empty(faults.All);
            Assert.Contains(": no segment: a service that may be writing here is just starting, or it was deleted or moved away", Invocation.Of("verify", "--data", _folder.Path).Output, StringComparison.Ordinal);
        }
    }

    private string OnlySegment() => Assert.Single(Segment.In(LocalDisk.Instance, DataFolder.JournalOf(_folder.Path))).Path;
}
