using System.IO.Compression;
using CureWatch.Service.Backups;
using CureWatch.Service.Disk;
using CureWatch.Service.Journal;
using CureWatch.Service.Pump;
using CureWatch.Service.Settings;
using CureWatch.Warnings;
using Microsoft.Extensions.Logging.Abstractions;

namespace CureWatch.Service.Tests.Backups;

/// <summary>A bit that is flipped in a key while the service runs is told the same night, not at the next start, and until the key is proven right.</summary>
public sealed class KeyRoundTests : IAsyncLifetime
{
    private const string Else = "put it back from a backup from before it was damaged";
    private const string Meanwhile = "; until then it seals nothing, and no older backup is let go";

    private ShopData _data = null!;
    private FillingDisk _disk = null!;
    private DataFolder _folder = null!;
    private KeyStore _keys = null!;
    private StorageWatch _storage = null!;
    private KeyRound _round = null!;
    private string _file = "";
    private byte[] _right = [];

    private string Shelf => _data.Elsewhere("nights");

    private string? Why => _data.Pumped.Troubles.Of(WarningKind.StorageAhead)?.Why;

    public async ValueTask InitializeAsync()
    {
        _data = await ShopData.FilledAsync();
        _disk = new FillingDisk(Shelf, long.MaxValue / 2);
        _folder = DataFolder.Hold(_disk, _data.Folder, isDemo: false, new Faults())!;
        _file = Assert.Single(Directory.GetFiles(_folder.Keys));
        _right = await File.ReadAllBytesAsync(_file, TestContext.Current.CancellationToken);
        Begin();
    }

    public ValueTask DisposeAsync()
    {
        _storage.Dispose();
        _folder.Dispose();
        _data.Dispose();
        return ValueTask.CompletedTask;
    }

    [Theory]
    [InlineData(5, 32)]
    [InlineData(0, 31)]
    public async Task KeyThatOpensNothing_IsTold_UntilItIsBack(int flipped, int length)
    {
        await LookAsync();
        Assert.Null(Why);
        Flip(flipped, length);
        await LookAsync();
        Assert.True(_round.HasDamage);
        Assert.Equal($"{_file} is not the key it was: {Else}{Meanwhile}", Why);
        Assert.Equal(_file, _storage.WrongKey());
        await LookAgainAsync();
        Assert.NotNull(Why);
        File.WriteAllBytes(_file, _right);
        await LookAgainAsync();
        Assert.Null(Why);
        Assert.Null(_storage.WrongKey());
        Assert.False(_round.HasDamage);
    }

    // What was erased on purpose is no damage.
    [Fact]
    public async Task KeyThatWasDestroyed_IsNotTold()
    {
        File.Delete(_file);
        await LookAsync();
        Assert.Null(Why);
    }

    [Fact]
    public async Task BackupThatHasTheKey_IsNamed_AndOneThatHasTheWrongOneIsNot()
    {
        Directory.CreateDirectory(Shelf);
        string holder = _data.BackUp("nights/curewatch-test-shop-20260504T082000Z.zip").Path;
        Flip();
        _ = _data.BackUp("nights/curewatch-test-shop-20260505T082000Z.zip");
        await LookAsync();
        Assert.Equal($"{_file} is not the key it was: put it back from {holder}, which has it as keys/{Path.GetFileName(_file)}{Meanwhile}", Why);
        await using ZipArchive zip = await ZipFile.OpenReadAsync(holder, TestContext.Current.CancellationToken);
        await zip.GetEntry($"keys/{Path.GetFileName(_file)}")!.ExtractToFileAsync(_file, overwrite: true, TestContext.Current.CancellationToken);
        await LookAgainAsync();
        Assert.Null(Why);
    }

    // The entries that would show it lie behind the damage.
    [Fact]
    public async Task KeyThatIsWrong_IsToldOnWhereTheJournalIsDamaged()
    {
        Flip();
        await LookAsync();
        string segment = Segment.In(LocalDisk.Instance, _folder.Journal)[0].Path;
        byte[] bytes = File.ReadAllBytes(segment);
        bytes[60] ^= 1;
        File.WriteAllBytes(segment, bytes);
        await LookAsync();
        Assert.StartsWith($"{_file} is not the key it was", Why, StringComparison.Ordinal);
    }

    [Fact]
    public async Task KeyTheServiceWasStartedWith_NeedsAStartToo_AlsoOnceItIsBack()
    {
        Flip();
        Begin();
        Assert.Equal($"{_file} is not the key it was: {Else}, and start again{Meanwhile}", Why);
        Assert.Throws<IOException>(() => _keys.Of("job-1"));
        File.WriteAllBytes(_file, _right);
        await LookAsync();
        Assert.Equal($"{_file} is the key it was again, but what it opens is not read before a start: start again", Why);
        Assert.Equal(_right, File.ReadAllBytes(_keys.Of("job-1").File));
        Assert.Null(_storage.WrongKey());
        Begin();
        Assert.Null(Why);
    }

    [Fact]
    public async Task KeyThatIsAskedForWhileItIsWrong_IsLookedAtBeforeTheNight()
    {
        await LookAsync();
        Flip();
        Assert.False(_round.HasDamage);
        _storage.KeysFail(Assert.Throws<IOException>(() => _keys.Of("job-1")));
        Assert.True(_round.HasDamage);
        await LookAgainAsync();
        Assert.Contains($"{_file} is not the key it was: {Else}", Why, StringComparison.Ordinal);
        _data.Pumped.Clock.Advance(TimeSpan.FromMinutes(1));
        _storage.Look();
        File.WriteAllBytes(_file, _right);
        await LookAgainAsync();
        Assert.StartsWith("there is no key for what names a person", Why, StringComparison.Ordinal);
        _data.Pumped.Clock.Advance(TimeSpan.FromMinutes(1));
        _storage.Look();
        Assert.Null(Why);
    }

    // The newest backup has the wrong key: with the last of the older ones the right one would go.
    [Fact]
    public async Task OlderBackups_StayUntilTheKeyIsRightAgain_AndInABackup()
    {
        NightlyBackup nightly = Nightly();
        string first = Night();
        Flip();
        string second = Night();
        Assert.Equal([first, second], Kept());
        Begin();
        nightly = Nightly();
        Assert.Equal([first, second, Night()], Kept());
        File.WriteAllBytes(_file, _right);
        nightly.Look(TestContext.Current.CancellationToken);
        Assert.Equal(3, Kept().Length);
        await LookAsync();
        _disk.Total = 0;
        _ = Night(); // fails once it was seen that the key is right
        Assert.Equal(3, Kept().Length);
        _disk.Total = long.MaxValue / 2;
        Assert.Equal([Night()], Kept());

        string Night()
        {
            _data.Pumped.Clock.Advance(TimeSpan.FromDays(1));
            nightly.Look(TestContext.Current.CancellationToken);
            return Kept()[^1];
        }

        string[] Kept() => [.. Directory.GetFiles(Shelf, "*.zip").Order(StringComparer.Ordinal)];
    }

    private NightlyBackup Nightly()
    {
        var storage = new StorageSettings(new BackupSettings(Shelf, new TimeOnly(3, 30), 1, 0, 0), null);
        var health = new BackupHealth(new ServiceSettings(null!, _data.Folder, null!, null!) { Storage = storage }, _data.Pumped.Clock);
        return new NightlyBackup(
            _folder, "test", storage, _data.Pumped.Latest, () => long.MaxValue, _storage.WrongKey, _data.Pumped.Troubles, health, _data.Pumped.Clock, NullLogger<NightlyBackup>.Instance);
    }

    /// <summary>A start, which reads all of the journal.</summary>
    private void Begin()
    {
        _storage?.Dispose();
        _data.Pumped.Troubles.Clear(WarningKind.StorageAhead);
        _keys = new KeyStore(LocalDisk.Instance, _folder.Keys);
        new Recovery(LocalDisk.Instance, _folder.Journal, new EntryCodec(_keys)).Run();
        _storage = new StorageWatch(LocalDisk.Instance, _folder.Journal, _keys, _data.Pumped.Troubles, _data.Pumped.Clock);
        _round = new KeyRound(
            _folder, _keys, new BackupSettings(Shelf, new TimeOnly(3, 30), 3, 0, 0), _data.Pumped.Latest, _storage, (_, _) => Task.CompletedTask);
    }

    private void Flip(int flipped = 5, int length = PersonalKey.Bytes)
    {
        byte[] wrong = [.. _right];
        wrong[flipped] ^= 4;
        File.WriteAllBytes(_file, wrong[..length]);
    }

    private Task LookAsync() => _round.LookAsync(TestContext.Current.CancellationToken);

    private Task LookAgainAsync() => _round.LookAgainAsync(TestContext.Current.CancellationToken);
}
