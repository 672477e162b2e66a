using CureWatch.Service.Backups;
using CureWatch.Service.Disk;
using CureWatch.Service.Journal;
using CureWatch.Service.Pump;
using CureWatch.Service.Settings;
using CureWatch.Service.Tests.Pump;
using CureWatch.Warnings;
using Microsoft.Extensions.Logging.Abstractions;

namespace CureWatch.Service.Tests.Backups;

/// <summary>Backups and their folder that are gone, and a clock that is set back.</summary>
public sealed class BackupOutOfSightTests : IAsyncLifetime
{
    private readonly SetClock _clock = new();
    private ShopData _data = null!;
    private DataFolder _folder = null!;
    private NightlyBackup _nightly = null!;

    private string Shelf => _data.Elsewhere("nights");

    private string[] Kept => [.. Directory.GetFiles(Shelf, "*.zip").Select(f => Path.GetFileName(f)).Order(StringComparer.Ordinal)];

    private Trouble? Trouble => _data.Pumped.Troubles.Of(WarningKind.BackupTrouble);

    public async ValueTask InitializeAsync()
    {
        _data = await ShopData.FilledAsync();
        _folder = DataFolder.Hold(LocalDisk.Instance, _data.Folder, isDemo: false, new Faults())!;
        Begin();
        _clock.Pass(TimeSpan.FromHours(1));
        Look();
        Assert.Equal(["curewatch-test-shop-20260504T090000Z.zip"], Kept);
    }

    public ValueTask DisposeAsync()
    {
        _folder.Dispose();
        _data.Dispose();
        return ValueTask.CompletedTask;
    }

    [Fact]
    public void NewestBackup_ThatIsGone_IsMadeAnewWithinAMinute_OrATrouble()
    {
        File.Delete(Path.Combine(Shelf, Kept[0]));
        PassMinute();
        Assert.Equal(["curewatch-test-shop-20260504T090100Z.zip"], Kept);
        Assert.Null(Trouble);

        File.Delete(Path.Combine(Shelf, Kept[0]));
        Directory.Delete(_folder.Journal, recursive: true);
        PassMinute();
        Assert.Contains("none is there", Trouble!.Why, StringComparison.Ordinal);
    }

    [Theory]
    [InlineData(true)]
    [InlineData(false)]
    public void Folder_WhoseDiskIsNotMounted_IsATroubleWithinAMinute_AndIsNotFilled(bool isStartedAnew)
    {
        string mounted = _data.Elsewhere("disk");
        Directory.Move(Shelf, mounted);
        Directory.CreateDirectory(Shelf);
        if (isStartedAnew)
        {
            Begin();
        }

        PassMinute();
        Assert.Contains($"no {BackupMark.Name}", Trouble!.Why, StringComparison.Ordinal);
        _clock.Pass(TimeSpan.FromDays(1));
        Look();
        Assert.Empty(Directory.GetFiles(Shelf));

        Directory.Delete(Shelf);
        _clock.Pass(TimeSpan.FromMinutes(15));
        Look();
        Assert.False(Directory.Exists(Shelf));
        Directory.Move(mounted, Shelf);
        _clock.Pass(TimeSpan.FromMinutes(15));
        Look();
        Assert.Null(Trouble);
        Assert.Equal(["curewatch-test-shop-20260505T093100Z.zip"], Kept);
    }

    [Fact]
    public void Folder_ThatIsSetAnew_IsMadeAndMarked()
    {
        Directory.Delete(Shelf, recursive: true);
        Begin(_data.Elsewhere("elsewhere"));
        Look();
        Assert.Null(Trouble);
        Assert.Contains(BackupMark.Name, Directory.GetFiles(_data.Elsewhere("elsewhere")).Select(f => Path.GetFileName(f)));
    }

    [Fact]
    public void Clock_ThatIsSetBack_StopsNoBackup()
    {
        _clock.Set(TimeSpan.FromDays(-400));
        PassMinute();
        Assert.Equal(["curewatch-test-shop-20250330T090100Z.zip", "curewatch-test-shop-20260504T090000Z.zip"], Kept);
        _clock.Pass(TimeSpan.FromDays(1));
        Look();
        Assert.Equal(["curewatch-test-shop-20250331T090100Z.zip", "curewatch-test-shop-20260504T090000Z.zip"], Kept); // one a day is kept
    }

    [Fact]
    public void Clock_ThatIsSetBackAfterAFailure_IsNoReasonNotToTryAgain()
    {
        File.WriteAllText(Path.Combine(Shelf, "curewatch-test-shop-20260505T090000Z.zip"), "in the way");
        _clock.Pass(TimeSpan.FromDays(1));
        Look();
        Assert.NotNull(Trouble);
        _clock.Set(TimeSpan.FromHours(-1));
        _clock.Pass(TimeSpan.FromMinutes(15));
        Look();
        Assert.Null(Trouble);
    }

    private void Begin(string? shelf = null)
    {
        var storage = new StorageSettings(new BackupSettings(shelf ?? Shelf, new TimeOnly(3, 30), 1, 0, 0), null);
        var settings = new ServiceSettings(null!, _data.Folder, null!, null!) { Storage = storage };
        _nightly = new NightlyBackup(
            _folder,
            "test",
            storage,
            _data.Pumped.Latest,
            () => long.MaxValue,
            () => null,
            _data.Pumped.Troubles,
            new BackupHealth(settings, _clock),
            _clock,
            NullLogger<NightlyBackup>.Instance);
    }

    private void Look() => _nightly.Look(TestContext.Current.CancellationToken);

    private void PassMinute()
    {
        _clock.Pass(TimeSpan.FromMinutes(1));
        Look();
    }
}
