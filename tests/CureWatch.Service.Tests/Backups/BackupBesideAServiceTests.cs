using CureWatch.Service.Backups;
using CureWatch.Service.Disk;
using CureWatch.Service.Journal;
using CureWatch.Service.Settings;
using CureWatch.Service.Snapshots;

namespace CureWatch.Service.Tests.Backups;

/// <summary>A backup is written while a service goes on with the same folder.</summary>
public sealed class BackupBesideAServiceTests : IAsyncLifetime
{
    private ShopData _data = null!;

    public async ValueTask InitializeAsync() => _data = await ShopData.FilledAsync();

    public ValueTask DisposeAsync()
    {
        _data.Dispose();
        return ValueTask.CompletedTask;
    }

    // The hourly snapshot throws the older ones away, in the midst of a backup that had listed them.
    [Fact]
    public void SnapshotThatIsThrownAwayMeanwhile_StaysOutOfIt()
    {
        _data.Pumped.Stop();
        new SnapshotFolder(LocalDisk.Instance, _data.Folder).Take(_data.Pumped.Register, _data.Pumped.Register.Sequence);
        var faults = new Faults();
        Backup? backup = Backup.Write(
            LocalDisk.Instance,
            () =>
            {
                BackupContent content = BackupContent.Of(LocalDisk.Instance, _data.Folder, faults)!;
                Assert.Contains(content.Files, f => f.Name.StartsWith("snapshots/", StringComparison.Ordinal));
                Directory.Delete(DataFolder.SnapshotsOf(_data.Folder), recursive: true);
                return content;
            },
            _data.Elsewhere("without.zip"),
            "test",
            _data.Pumped.Clock.GetUtcNow(),
            faults,
            TestContext.Current.CancellationToken);
        Assert.Empty(faults.All);
        Assert.DoesNotContain(backup!.Manifest.Files, f => f.Name.StartsWith("snapshots/", StringComparison.Ordinal));
        Assert.NotNull(Restore.Of(LocalDisk.Instance, backup.Path, _data.Elsewhere("restored"), new Faults()));
    }
}
