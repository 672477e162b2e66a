using CureWatch.Service.Backups;
using CureWatch.Service.Disk;
using CureWatch.Service.Journal;
using CureWatch.Service.Pump;
using CureWatch.Service.Settings;
using CureWatch.Service.Snapshots;
using CureWatch.Service.Tests.Commands;

namespace CureWatch.Service.Tests.Backups;

/// <summary>What commands say of a journal whose beginning is in an archive, and of that archive.</summary>
public sealed class RetiredPartTests : IAsyncLifetime
{
    private readonly Faults _faults = new();
    private ShopData _data = null!;

    private string Shelf => Directory.CreateDirectory(_data.Elsewhere("nights")).FullName;

    private string Journal => DataFolder.JournalOf(_data.Folder);

    public async ValueTask InitializeAsync()
    {
        _data = await ShopData.FilledAsync();
        await _data.ReadAsync(150);
        _data.Pumped.Stop();
    }

    public ValueTask DisposeAsync()
    {
        _data.Dispose();
        return ValueTask.CompletedTask;
    }

    [Fact]
    public void Part_IsVerified_AndADamagedOneIsNamed()
    {
        RetiredPart retired = Retire(2);
        string part = Path.Combine(Shelf, retired.Archive);
        Invocation whole = Invocation.Of("verify", "--backup", part);
        Assert.Equal((0, $"{part}: entries 1 to {retired.Last} of the journal, whole\n"), (whole.ExitCode, whole.Output));

        byte[] bytes = File.ReadAllBytes(part);
        bytes[bytes.Length / 2] ^= 1;
        File.WriteAllBytes(part, bytes);
        Assert.Equal(1, Invocation.Of("verify", "--backup", part).ExitCode);
    }

    // What was told before the oldest snapshot that is kept cannot be said from what is here: the state of the snapshot is no answer to it.
    [Fact]
    public void Replay_UntilBeforeWhatIsHere_IsRefused()
    {
        IReadOnlyList<Step> steps = [.. Steps()];
        long kept = Segment.In(LocalDisk.Instance, Journal)[3].First;
        new SnapshotFolder(LocalDisk.Instance, _data.Folder).Take(steps[(int)kept - 1].After, kept);
        Retire(3);

        Invocation.Of("replay", "--data", _data.Folder, "--until", UtcText.Of(steps[0].At)).AssertRefused($"{_data.Folder}: journal");
        Invocation.Of("start", "--data", _data.Folder, "--at", UtcText.Of(steps[0].At)).AssertRefused($"{_data.Folder}: journal");
        Assert.NotEqual(2, Invocation.Of("replay", "--data", _data.Folder, "--until", UtcText.Of(steps[^1].At)).ExitCode);
    }

    private IEnumerable<Step> Steps()
    {
        using DataFolder folder = DataFolder.Hold(LocalDisk.Instance, _data.Folder, isDemo: false, _faults)!;
        return [.. new JournalSteps(folder).After(0)];
    }

    /// <summary>Moves the segments before one of them to an archive.</summary>
    private RetiredPart Retire(int segment) => new Retirement(LocalDisk.Instance, Journal, new BackupShelf(LocalDisk.Instance, Shelf, "test-shop"), _faults)
        .Run(_data.BackUp().Manifest, Segment.In(LocalDisk.Instance, Journal)[segment].First, DateTimeOffset.MaxValue, TestContext.Current.CancellationToken)!;
}
