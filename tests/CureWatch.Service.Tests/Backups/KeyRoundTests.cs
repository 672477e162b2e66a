using CureWatch.Service.Backups;
using CureWatch.Service.Disk;
using CureWatch.Service.Journal;
using CureWatch.Service.Pump;
using CureWatch.Service.Settings;
using CureWatch.Warnings;

namespace CureWatch.Service.Tests.Backups;

/// <summary>A bit that is flipped in a key while the service runs is told the same night, not at the next start.</summary>
public sealed class KeyRoundTests : IAsyncLifetime
{
    private ShopData _data = null!;
    private DataFolder _folder = null!;
    private StorageWatch _storage = null!;
    private KeyRound _round = null!;

    private Trouble? Trouble => _data.Pumped.Troubles.Of(WarningKind.StorageAhead);

    public async ValueTask InitializeAsync()
    {
        _data = await ShopData.FilledAsync();
        _folder = DataFolder.Hold(LocalDisk.Instance, _data.Folder, isDemo: false, new Faults())!;
        _storage = new StorageWatch(LocalDisk.Instance, _folder.Journal, new KeyStore(LocalDisk.Instance, _folder.Keys), _data.Pumped.Troubles, _data.Pumped.Clock);
        _round = new KeyRound(_folder, _storage, (_, _) => Task.CompletedTask);
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
        string file = Assert.Single(Directory.GetFiles(_folder.Keys));
        byte[] right = await File.ReadAllBytesAsync(file, TestContext.Current.CancellationToken);
        await LookAsync();
        Assert.Null(Trouble);
        byte[] wrong = [.. right];
        wrong[flipped] ^= 4;
        await File.WriteAllBytesAsync(file, wrong[..length], TestContext.Current.CancellationToken);
        await LookAsync();
        Assert.True(_round.HasDamage);
        Assert.Equal($"{file} is not the key it was: put it back from a backup", Trouble!.Why);
        await _round.LookAgainAsync(TestContext.Current.CancellationToken);
        Assert.NotNull(Trouble);
        await File.WriteAllBytesAsync(file, right, TestContext.Current.CancellationToken);
        await _round.LookAgainAsync(TestContext.Current.CancellationToken);
        Assert.Null(Trouble);
        Assert.False(_round.HasDamage);
    }

    // What was erased on purpose is no damage.
    [Fact]
    public async Task KeyThatWasDestroyed_IsNotTold()
    {
        File.Delete(Assert.Single(Directory.GetFiles(_folder.Keys)));
        await LookAsync();
        Assert.Null(Trouble);
    }

    private Task LookAsync() => _round.LookAsync(TestContext.Current.CancellationToken);
}
