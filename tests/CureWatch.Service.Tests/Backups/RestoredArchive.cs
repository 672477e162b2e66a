using CureWatch.Service.Tests.Commands;

namespace CureWatch.Service.Tests.Backups;

/// <summary>A genuine backup, a place to restore to, and what a refusal has to be like.</summary>
public abstract class RestoredArchive : IAsyncLifetime
{
    private protected ShopData Data { get; private set; } = null!;

    private protected byte[] Genuine { get; private set; } = [];

    private protected string Source => Data.Elsewhere("hostile.zip");

    private protected string Target => Path.Combine(Data.Elsewhere("room"), "data");

    public async ValueTask InitializeAsync()
    {
        Data = await ShopData.FilledAsync();
        Data.Pumped.Stop();
        Genuine = File.ReadAllBytes(Data.BackUp().Path);
        Directory.CreateDirectory(Data.Elsewhere("room"));
    }

    public virtual ValueTask DisposeAsync()
    {
        GC.SuppressFinalize(this);
        Data.Dispose();
        return ValueTask.CompletedTask;
    }

    private protected byte[] Forge(Action<Forged> change)
    {
        var forged = new Forged(Data.Elsewhere("backup.zip"));
        change(forged);
        return forged.Written();
    }

    private protected void AssertRefused(byte[] archive, string place, string said)
    {
        File.WriteAllBytes(Source, archive);
        Invocation run = Invocation.Of("restore", Source, "--data", Target);
        Assert.Equal((2, ""), (run.ExitCode, run.Output));
        Assert.Contains(run.Faults, f => f.StartsWith(place, StringComparison.Ordinal) && f.Contains(said, StringComparison.Ordinal));
        Assert.All(run.Faults, f => Assert.StartsWith(Source, f, StringComparison.Ordinal));
        AssertNothingLeft();
    }

    private protected void AssertRefusedOrWhole(byte[] archive)
    {
        File.WriteAllBytes(Source, archive);
        Invocation run = Invocation.Of("restore", Source, "--data", Target);
        if (run.ExitCode == 0)
        {
            Assert.Equal(0, Invocation.Of("verify", "--data", Target).ExitCode);
            Directory.Delete(Target, recursive: true);
        }

        Assert.NotEqual(1, run.ExitCode);
        AssertNothingLeft();
    }

    private protected void AssertNothingLeft()
    {
        Assert.Empty(Directory.GetFileSystemEntries(Data.Elsewhere("room")));
        Assert.False(Path.Exists(Data.Elsewhere("escaped")) || Path.Exists("/tmp/escaped"));
    }
}
