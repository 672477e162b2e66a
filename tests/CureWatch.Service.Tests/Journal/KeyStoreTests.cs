using CureWatch.Service.Disk;
using CureWatch.Service.Journal;
using CureWatch.Service.Tests.Settings;

namespace CureWatch.Service.Tests.Journal;

/// <summary>What is sealed while a service runs can be opened after the next start, whatever happens to a key's file.</summary>
public sealed class KeyStoreTests : IDisposable
{
    private static readonly byte[] Clear = [1, 2, 3];

    private readonly Written _written = new();
    private readonly KeyStore _running;

    public KeyStoreTests() => _running = Begin();

    private string KeyFile => Path.Combine(_written.Folder, "job-a.key");

    public void Dispose() => _written.Dispose();

    [Fact]
    public void Key_ThatChangesWhileTheServiceRuns_SealsNothing_UntilItIsBack()
    {
        string seal = _running.Of("a").Seal(Clear);
        byte[] right = File.ReadAllBytes(KeyFile);
        File.WriteAllBytes(KeyFile, [.. right.Reverse()]);
        Assert.Equal($"{KeyFile} is not the key it was", Assert.Throws<IOException>(() => _running.Of("a")).Message);
        Assert.Equal($"{KeyFile} is not the key it was", Assert.Throws<IOException>(_running.Try).Message);
        Assert.Equal([KeyFile], _running.Wrong());
        Assert.True(_running.Fits(KeyFile, right));

        File.WriteAllBytes(KeyFile, right);
        _running.Try();
        Assert.Empty(_running.Wrong());
        Assert.Null(_running.Doubtful());
        KeyStore next = Begin();
        Assert.Equal(Clear, next.Open("a", seal));
        Assert.Equal(Clear, next.Open("a", _running.Of("a").Seal(Clear)));
    }

    [Fact]
    public void Key_DeletedWhileTheServiceRuns_IsMadeAnew_SoThatWhatIsToldSinceCanBeRead_AndWhatWasToldBeforeCannot()
    {
        string before = _running.Of("a").Seal(Clear);
        File.Delete(KeyFile);
        Assert.Null(_running.Doubtful());
        string since = _running.Of("a").Seal(Clear);
        Assert.Empty(_running.Wrong());
        Assert.Equal(KeyFile, _running.Doubtful()); // who seals the state now would seal what was erased
        KeyStore next = Begin();
        Assert.Null(next.Open("a", before));
        Assert.Equal(Clear, next.Open("a", since));
    }

    // What was erased before it was made anew is not what tells the right key.
    [Fact]
    public void Key_OfAJobThatWasErasedOnce_IsKnownAgainByWhatWasSealedLast()
    {
        string before = _running.Of("a").Seal(Clear);
        File.Delete(KeyFile);
        string since = Begin().Of("a").Seal(Clear);
        byte[] right = File.ReadAllBytes(KeyFile);
        File.WriteAllBytes(KeyFile, [.. right.Reverse()]);
        KeyStore next = Begin();
        Assert.All([before, since], seal => Assert.Null(next.Open("a", seal)));
        Assert.Equal([KeyFile], next.Misfits);
        Assert.True(next.Fits(KeyFile, right));
    }

    // Who erases what names one person leaves the keys of the others.
    [Fact]
    public void Keys_AreLost_WhereOfSeveralJobsNoneIsThere()
    {
        string[] jobs = ["a", "b", "c"];
        string[] seals = [.. jobs.Select(j => _running.Of(j).Seal(Clear))];
        Assert.Equal(0, Without("b", "c").Lost);
        KeyStore next = Without("a");
        Assert.Equal((3, _written.Folder), (next.Lost, next.Doubtful())); // who sealed the state now would seal it without them
        _ = next.Of("d");
        Assert.Equal((3, _written.Folder), (next.Lost, next.Doubtful()));
        Assert.Equal(0, Begin().Lost); // nothing was to be opened

        KeyStore Without(params string[] gone)
        {
            gone.ToList().ForEach(j => File.Delete(Path.Combine(_written.Folder, $"job-{j}.key")));
            KeyStore store = Begin();
            _ = jobs.Zip(seals, store.Open).Count();
            return store;
        }
    }

    [Fact]
    public void Key_OfTheOnlyJob_MayBeErased()
    {
        string seal = _running.Of("a").Seal(Clear);
        File.Delete(KeyFile);
        KeyStore next = Begin();
        Assert.Null(next.Open("a", seal));
        Assert.Equal(0, next.Lost);
    }

    private KeyStore Begin() => new(LocalDisk.Instance, _written.Folder);
}
