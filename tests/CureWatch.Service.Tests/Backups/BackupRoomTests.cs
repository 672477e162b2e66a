using System.Security.Cryptography;
using CureWatch.Service.Backups;
using CureWatch.Service.Journal;
using CureWatch.Service.Pump;
using CureWatch.Service.Settings;
using CureWatch.Warnings;
using Microsoft.Extensions.Logging.Abstractions;

namespace CureWatch.Service.Tests.Backups;

public sealed class BackupRoomTests : IAsyncLifetime
{
    private const int PhotoBytes = 5 << 20;

    private ShopData _data = null!;

    public async ValueTask InitializeAsync()
    {
        _data = await ShopData.FilledAsync();
        Directory.CreateDirectory(DataFolder.PhotosOf(_data.Folder));
        for (int photo = 0; photo < 3; photo++)
        {
            byte[] bytes = new byte[PhotoBytes];
            new Random(photo).NextBytes(bytes);
            await File.WriteAllBytesAsync(Path.Combine(DataFolder.PhotosOf(_data.Folder), $"{Convert.ToHexStringLower(SHA256.HashData(bytes))}.jpg"), bytes, TestContext.Current.CancellationToken);
        }
    }

    public ValueTask DisposeAsync()
    {
        _data.Dispose();
        return ValueTask.CompletedTask;
    }

    [Theory]
    [InlineData(StorageWatch.LittleBytes - 1)]
    [InlineData(StorageWatch.LittleBytes + PhotoBytes)]
    public void Backup_ThatWouldLeaveTooLittleRoom_IsNone_AndLeavesNothing(long free)
    {
        string folder = Directory.CreateDirectory(_data.Elsewhere("full")).FullName;
        var faults = new Faults();

        Assert.Null(Backup.Write(new FillingDisk(folder, free), _data.Folder, Path.Combine(folder, "backup.zip"), "test", _data.Pumped.Clock.GetUtcNow(), faults, TestContext.Current.CancellationToken));

        Assert.Contains("MB are free, and a backup leaves 200 MB free", Assert.Single(faults.All).Seen, StringComparison.Ordinal);
        Assert.Empty(Directory.GetFiles(folder));
    }

    [Fact]
    public void Backup_ThatLeavesEnoughRoom_IsMade()
    {
        string folder = Directory.CreateDirectory(_data.Elsewhere("roomy")).FullName;
        Assert.NotNull(Backup.Write(
            new FillingDisk(folder, StorageWatch.LittleBytes + (4 * PhotoBytes)), _data.Folder, Path.Combine(folder, "backup.zip"), "test", _data.Pumped.Clock.GetUtcNow(), new Faults(), TestContext.Current.CancellationToken));
    }

    // The disk was full of our own backups, and each night failed as the one before.
    [Fact]
    public void NightWithoutRoom_LetsGoOfTheOldestFirst_NeverOfTheNewest_AndOfNoneWhereThatIsNotEnough()
    {
        string shelf = _data.Elsewhere("nights");
        Directory.CreateDirectory(shelf);
        var disk = new FillingDisk(shelf, long.MaxValue / 2);
        using DataFolder folder = DataFolder.Hold(disk, _data.Folder, isDemo: false, new Faults())!;
        var storage = new StorageSettings(new BackupSettings(shelf, new TimeOnly(3, 30), 7, 0, 0), null);
        var health = new BackupHealth(new ServiceSettings(null!, _data.Folder, null!, null!) { Storage = storage }, _data.Pumped.Clock);
        var nightly = new NightlyBackup(
            folder, "test", storage, _data.Pumped.Latest, () => long.MaxValue, () => null, _data.Pumped.Troubles, health, _data.Pumped.Clock, NullLogger<NightlyBackup>.Instance);
        string[] made = [.. Enumerable.Range(0, 3).Select(_ => Night())];
        string archive = Path.Combine(shelf, $"curewatch-test-shop-journal-{1:D20}-{2:D20}.zip");
        File.Copy(made[0], archive);

        disk.Total = Used() + StorageWatch.LittleBytes + PhotoBytes - (20 * PhotoBytes);
        Assert.Equal(made[2], Night());
        Assert.Contains("it takes up to 16 MB", _data.Pumped.Troubles.Of(WarningKind.BackupTrouble)!.Why, StringComparison.Ordinal);
        Assert.All(made, m => Assert.True(File.Exists(m)));

        string key = Directory.GetFiles(folder.Keys)[0];
        byte[] right = File.ReadAllBytes(key);
        File.WriteAllBytes(key, [.. right.Reverse()]);
        disk.Total = Used() + StorageWatch.LittleBytes + PhotoBytes;
        Assert.Equal(made[2], Night());
        Assert.All(made, m => Assert.True(File.Exists(m))); // the right key may be in the oldest only
        File.WriteAllBytes(key, right);
        disk.Total = Used() + StorageWatch.LittleBytes + (3 * PhotoBytes);
        string next = Night();
        Assert.NotEqual(made[2], next);
        Assert.Null(_data.Pumped.Troubles.Of(WarningKind.BackupTrouble));
        Assert.Equal([made[1], made[2], next, archive], Directory.GetFiles(shelf, "*.zip").Order(StringComparer.Ordinal));

        string Night()
        {
            _data.Pumped.Clock.Advance(TimeSpan.FromDays(1));
            nightly.Look(TestContext.Current.CancellationToken);
            return health.Newest!.Path;
        }

        long Used() => Directory.GetFiles(shelf).Sum(f => new FileInfo(f).Length);
    }
}
