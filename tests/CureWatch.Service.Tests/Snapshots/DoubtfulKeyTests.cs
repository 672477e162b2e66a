using CureWatch.Service.Commands;
using CureWatch.Service.Disk;
using CureWatch.Service.Journal;
using CureWatch.Service.Pump;
using CureWatch.Service.Settings;
using CureWatch.Service.Snapshots;
using CureWatch.Service.Tests.Pump;
using CureWatch.Warnings;

namespace CureWatch.Service.Tests.Snapshots;

/// <summary>A key file of which a bit was flipped, and which a backup has as it was.</summary>
public sealed class DoubtfulKeyTests : IAsyncLifetime
{
    private readonly Pumped _pumped = new();
    private string _file = "";
    private byte[] _right = [];

    private SnapshotFolder Snapshots => new(LocalDisk.Instance, _pumped.Folder);

    public async ValueTask InitializeAsync()
    {
        await _pumped.StartJob();
        Snapshots.Take(_pumped.Register, _pumped.Register.Sequence);
        await _pumped.Tap($$"""{"id":"a","at":"{{_pumped.Clock.GetUtcNow():O}}","did":"applied","by":"Kim"}""");
        _pumped.Stop();
        _file = Assert.Single(Directory.GetFiles(DataFolder.KeysOf(_pumped.Folder)));
        _right = await File.ReadAllBytesAsync(_file, TestContext.Current.CancellationToken);
    }

    public ValueTask DisposeAsync()
    {
        _pumped.Dispose();
        return ValueTask.CompletedTask;
    }

    [Fact]
    public void Key_WithAFlippedBit_IsToldAtTheStart_AndSealsNothing()
    {
        Flip();
        (KeyStore keys, _) = Start();
        var troubles = new Troubles(_pumped.Clock);
        using var watch = new StorageWatch(LocalDisk.Instance, DataFolder.JournalOf(_pumped.Folder), keys, troubles, _pumped.Clock);

        Assert.Equal([_file], keys.Misfits);
        Assert.Equal($"{_file} is not the key it was: put it back from a backup from before it was damaged, and start again; until then it seals nothing, and no older backup is let go", troubles.Of(WarningKind.StorageAhead)!.Why);
        Assert.Equal($"{_file} is not the key it was", Assert.Throws<IOException>(() => keys.Of("job-1")).Message);
    }

    [Fact]
    public void Snapshot_IsNoneWhileAKeyIsNotTheOneItWas_SoThatThatOneOpensAllOnceItIsBack()
    {
        Flip();
        (KeyStore keys, Register blank) = Start();
        Assert.Equal((null, null), NamesIn(blank));
        Assert.Throws<IOException>(() => Snapshots.Take(blank, blank.Sequence, keys));

        File.WriteAllBytes(_file, _right);
        (keys, Register named) = Start();
        Assert.Equal(("grey", "Kim"), NamesIn(named));
        Assert.Empty(keys.Misfits);
        Assert.Equal(named.Sequence, Assert.IsType<Register>(Taken(named, keys)).Sequence);
    }

    [Fact]
    public void Snapshot_IsNoneWhereABitWasFlippedSinceTheStart()
    {
        (KeyStore keys, Register named) = Start();
        Flip();
        Assert.Throws<IOException>(() => Snapshots.Take(named, named.Sequence, keys));
        File.WriteAllBytes(_file, _right);
        Assert.Equal(("grey", "Kim"), NamesIn(Taken(named, keys)!));
    }

    [Fact]
    public void Key_ThatIsDestroyedAndMadeAnew_IsNoDoubt()
    {
        File.Delete(_file);
        (KeyStore keys, Register blank) = Start();
        Assert.Empty(keys.Misfits);
        Assert.NotNull(keys.Of("job-1"));
        Assert.NotNull(keys.Of("job-1"));
        Assert.NotNull(Taken(blank, keys));
    }

    // Of a car that nobody named, and of what is about no car, a snapshot has nothing that names anybody: only by that the key was there it is known.
    [Theory]
    [InlineData("job-2")]
    [InlineData(KeyStore.OfNoJob)]
    public async Task Key_ThatNothingInASnapshotNeeds_IsKnownByItAllTheSame_AndSealsNothingWhereItIsWrong(string job)
    {
        _pumped.Start();
        await _pumped.StartJob("""{"job":"job-2","bay":"bay-1","surfaces":[{"surface":"roof","material":"steel","product":"paint"}]}""");
        Assert.IsType<Answer.Stored>(await _pumped.Ask(new Arrival.LearningReset("reset", """{"product":"paint","by":"Robin"}"""u8.ToArray())));
        _pumped.Stop();
        Assert.NotNull(new KeyStore(LocalDisk.Instance, DataFolder.KeysOf(_pumped.Folder)).Of(job));
        Snapshots.Take(_pumped.Register, _pumped.Register.Sequence);
        string file = Path.Combine(DataFolder.KeysOf(_pumped.Folder), $"job-{job}.key");
        byte[] right = await File.ReadAllBytesAsync(file, TestContext.Current.CancellationToken);
        await File.WriteAllBytesAsync(file, [.. right.Reverse()], TestContext.Current.CancellationToken);

        (KeyStore keys, _) = Start();
        Assert.Equal([file], keys.Misfits);
        Assert.Throws<IOException>(() => keys.Of(job));
        await File.WriteAllBytesAsync(file, right, TestContext.Current.CancellationToken);
        (keys, Register named) = Start();
        Assert.Empty(keys.Misfits);
        Assert.Equal(States.Text(_pumped.Recover().Register), States.Text(named));
    }

    private static (string? Car, string? By) NamesIn(Register register) => (register.Jobs["job-1"].Car, register.Shop!.Find("job-1")!.Told[0].By);

    private Register? Taken(Register register, KeyStore keys)
    {
        Snapshots.Take(register, register.Sequence, keys);
        return Snapshots.Newest();
    }

    private (KeyStore Keys, Register Register) Start()
    {
        var keys = new KeyStore(LocalDisk.Instance, DataFolder.KeysOf(_pumped.Folder));
        var faults = new Faults();
        (Recovery, Register Register)? folded = JournalFold.Of(LocalDisk.Instance, _pumped.Folder, null, faults, startKeys: keys);
        Assert.Empty(faults.All);
        return (keys, folded!.Value.Register);
    }

    private void Flip()
    {
        byte[] wrong = [.. _right];
        wrong[5] ^= 4;
        File.WriteAllBytes(_file, wrong);
    }
}
