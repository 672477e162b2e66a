using CureWatch.Service.Disk;
using CureWatch.Service.Journal;
using CureWatch.Service.Settings;
using CureWatch.Service.Tests.Settings;

namespace CureWatch.Service.Tests.Journal;

public sealed class DataFolderTests : IDisposable
{
    private readonly Written _written = new();

    private string Data => Path.Combine(_written.Folder, "data");

    public void Dispose() => _written.Dispose();

    [Fact]
    public void Folder_New_IsMadeAndHeld()
    {
        var faults = new Faults();
        using DataFolder? folder = DataFolder.Hold(LocalDisk.Instance, Data, isDemo: false, faults);
        Assert.NotNull(folder);
        Assert.Null(DataFolder.Hold(LocalDisk.Instance, Data, isDemo: false, faults));
        Assert.Contains($"in use by process {Environment.ProcessId}", faults.All[^1].Seen, StringComparison.Ordinal);
    }

    [Fact]
    public void Folder_WhoseLockWasDeleted_IsStillHeld()
    {
        Assert.SkipWhen(OperatingSystem.IsWindows(), "What is held there cannot be deleted.");
        var faults = new Faults();
        using (DataFolder.Hold(LocalDisk.Instance, Data, isDemo: false, faults))
        {
            File.Delete(DataFolder.LockOf(Data));
            Assert.Null(DataFolder.Hold(LocalDisk.Instance, Data, isDemo: false, faults));
            Assert.Contains($"in use by process {Environment.ProcessId}", faults.All[^1].Seen, StringComparison.Ordinal);
        }

        using DataFolder? again = DataFolder.Hold(LocalDisk.Instance, Data, isDemo: false, faults);
        Assert.NotNull(again);
    }

    [Fact]
    public void Folder_LetGo_CanBeHeldAgain()
    {
        var faults = new Faults();
        DataFolder.Hold(LocalDisk.Instance, Data, isDemo: false, faults)!.Dispose();
        using DataFolder? again = DataFolder.Hold(LocalDisk.Instance, Data, isDemo: false, faults);
        Assert.NotNull(again);
    }

    [Theory]
    [InlineData(false, "lost+found")]
    [InlineData(false, "lock")]
    [InlineData(false, "lock", "owner", "journal")]
    [InlineData(true, "lock", "owner", "demo.new")]
    [InlineData(true, "lock", "owner", "demo", "journal")]
    public void Folder_WhoseMakingWasCutShort_IsMadeWhole(bool isDemo, params string[] left)
    {
        Directory.CreateDirectory(Data);
        foreach (string name in left)
        {
            string path = Path.Combine(Data, name);
            if (name is "journal" or "lost+found")
            {
                Directory.CreateDirectory(path);
            }
            else
            {
                File.WriteAllText(path, "");
            }
        }

        var faults = new Faults();
        using DataFolder? folder = DataFolder.Hold(LocalDisk.Instance, Data, isDemo, faults);
        Assert.Empty(faults.All);
        Assert.True(Directory.Exists(folder!.Keys));
    }

    [Fact]
    public void Folder_WithOtherFiles_IsLeftAlone()
    {
        _written.File("data/holiday.txt", "");
        var faults = new Faults();
        Assert.Null(DataFolder.Hold(LocalDisk.Instance, Data, isDemo: false, faults));
        Assert.Equal("holiday.txt in it", faults.All[0].Seen);
        Assert.Equal(["holiday.txt"], Directory.GetFileSystemEntries(Data).Select(Path.GetFileName));
    }

    [Theory]
    [InlineData(true, false, "a demo's data")]
    [InlineData(false, true, "a shop's own data")]
    public void Folder_OfTheOtherKind_IsRefused(bool first, bool second, string seen)
    {
        var faults = new Faults();
        DataFolder.Hold(LocalDisk.Instance, Data, first, faults)!.Dispose();
        Assert.Null(DataFolder.Hold(LocalDisk.Instance, Data, second, faults));
        Assert.Equal(seen, faults.All[0].Seen);
    }

    [Fact]
    public void Folder_ThatIsAFile_IsOneFault()
    {
        var faults = new Faults();
        Assert.Null(DataFolder.Hold(LocalDisk.Instance, _written.File("file", ""), isDemo: false, faults));
        Assert.Single(faults.All);
    }
}
