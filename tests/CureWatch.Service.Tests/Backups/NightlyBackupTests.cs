using System.Text.Json;
using CureWatch.Service.Backups;
using CureWatch.Service.Disk;
using CureWatch.Service.Documents;
using CureWatch.Service.Journal;
using CureWatch.Service.Pump;
using CureWatch.Service.Settings;
using CureWatch.Warnings;
using Microsoft.Extensions.Logging.Abstractions;

namespace CureWatch.Service.Tests.Backups;

public sealed class NightlyBackupTests : IAsyncLifetime
{
    private ShopData _data = null!;
    private DataFolder _folder = null!;
    private BackupHealth _health = null!;
    private NightlyBackup _nightly = null!;

    private string Shelf => _data.Elsewhere("nights");

    private IEnumerable<string> Kept => Directory.GetFiles(Shelf).Select(f => Path.GetFileName(f)).Where(f => f != BackupMark.Name).Order(StringComparer.Ordinal);

    private Trouble? Trouble => _data.Pumped.Troubles.Of(WarningKind.BackupTrouble);

    public async ValueTask InitializeAsync()
    {
        _data = await ShopData.FilledAsync();
        _folder = DataFolder.Hold(LocalDisk.Instance, _data.Folder, isDemo: false, new Faults())!;
        Begin();
    }

    public ValueTask DisposeAsync()
    {
        _folder.Dispose();
        _data.Dispose();
        return ValueTask.CompletedTask;
    }

    [Fact]
    public void ServiceThatWasNeverBackedUp_IsAtOnce_AndThenNightByNight()
    {
        Assert.Equal((null, null), Health());
        Look();
        Assert.Equal(["curewatch-test-shop-20260504T082000Z.zip"], Kept);
        Pass(TimeSpan.FromHours(18));
        Assert.Single(Kept);
        Assert.Equal((_data.Pumped.Clock.GetUtcNow().AddHours(-18), "18:00:00"), Health());

        Pass(TimeSpan.FromMinutes(10));
        Assert.Equal("curewatch-test-shop-20260505T023000Z.zip", Kept.Last());
        Assert.Equal((_data.Pumped.Clock.GetUtcNow(), "00:00:00"), Health());
        Assert.NotNull(Restore.Of(LocalDisk.Instance, Path.Combine(Shelf, Kept.Last()), _data.Elsewhere("restored"), new Faults()));
    }

    [Fact]
    public void NightTheServiceWasOff_IsMadeUpForAtTheNextStart()
    {
        Look();
        Begin();
        Look();
        Assert.Single(Kept);
        _data.Pumped.Clock.Advance(TimeSpan.FromDays(1.5));
        Begin();
        Look();
        Assert.Equal(2, Kept.Count());
    }

    [Fact]
    public void Nights_ThatNeedNotBeKept_Go_AndNothingElse()
    {
        Directory.CreateDirectory(Shelf);
        string[] others =
        [
            "curewatch-other-shop-20200101T000000Z.zip", "curewatch-test-shop-20200101T000000Z.zip", "curewatch-test-shop-journal-1-2.zip", "holiday.zip",
        ];
        foreach (string other in others)
        {
            File.WriteAllText(Path.Combine(Shelf, other), "not ours, or not to be opened");
        }

        using (ShopData stranger = new())
        {
            stranger.Pumped.Stop();
            File.Move(stranger.BackUp().Path, Path.Combine(Shelf, "curewatch-test-shop-20190101T000000Z.zip"));
        }

        for (int night = 0; night < 12; night++)
        {
            Look();
            _data.Pumped.Clock.Advance(TimeSpan.FromDays(1));
        }

        Assert.All([.. others, "curewatch-test-shop-20190101T000000Z.zip"], other => Assert.Contains(other, Kept));
        Assert.Equal(3, Kept.Count() - others.Length - 1);
        Assert.Contains("curewatch-test-shop-20260515T082000Z.zip", Kept);
    }

    [Fact]
    public void FolderThatCannotBeWritten_IsATroubleSinceThen_TriedAgain_AndOverOnceItCan()
    {
        File.WriteAllText(Shelf, "a file where the folder should be");
        Look();
        DateTimeOffset since = _data.Pumped.Clock.GetUtcNow();
        Assert.Contains("none is there", Trouble!.Cause.ToString(), StringComparison.Ordinal);
        Assert.StartsWith("The nightly backup fails: ", Trouble.Cause.ToString(), StringComparison.Ordinal);
        File.Delete(Shelf);
        Pass(TimeSpan.FromMinutes(14));
        Assert.False(Directory.Exists(Shelf));
        Assert.Equal(since, Trouble.Since);
        Pass(TimeSpan.FromMinutes(1));
        Assert.Null(Trouble);
        Assert.Single(Kept);
    }

    [Fact]
    public void DamagedJournal_IsATrouble_AndTheBackupsBeforeStay()
    {
        Look();
        string segment = Segment.In(LocalDisk.Instance, DataFolder.JournalOf(_data.Folder))[0].Path;
        byte[] bytes = File.ReadAllBytes(segment);
        bytes[60] ^= 1;
        File.WriteAllBytes(segment, bytes);
        _data.Pumped.Clock.Advance(TimeSpan.FromDays(1));
        Look();
        Assert.Contains(segment, Trouble!.Cause.ToString(), StringComparison.Ordinal);
        Assert.Contains("the newest is of 2026-05-04T08:20:00Z", Trouble.Cause.ToString(), StringComparison.Ordinal);
        Assert.Equal(["curewatch-test-shop-20260504T082000Z.zip"], Kept);
        Assert.Equal("1.00:00:00", Health().Age);
    }

    // It was told for a quarter of an hour at night, and then no more, though nothing had been tried again.
    [Fact]
    public async Task JournalThatCannotBeRetired_IsATrouble_TriedAgain_AndOverOnceItCan()
    {
        await _data.Pumped.Ask(new Arrival.HandOver("job-1", "Alex", "it had to"));
        Begin(keepJournal: TimeSpan.Zero);
        string journal = DataFolder.JournalOf(_data.Folder);
        long last = Segment.In(LocalDisk.Instance, journal)[^1].First - 1;
        string inTheWay = Path.Combine(Directory.CreateDirectory(Shelf).FullName, $"curewatch-test-shop-journal-{1:D20}-{last:D20}.zip");
        File.WriteAllText(inTheWay, "no archive");
        Look();
        Assert.Contains(inTheWay, Trouble!.Cause.ToString(), StringComparison.Ordinal);
        Pass(TimeSpan.FromMinutes(40));
        Assert.NotNull(Trouble);
        Assert.Single(Kept, f => !f.Contains("journal", StringComparison.Ordinal)); // the backup itself was made
        File.Delete(inTheWay);
        Pass(TimeSpan.FromMinutes(16));
        Assert.Null(Trouble);
        Assert.Single(Directory.GetFiles(journal, "*.retired"));
    }

    [Fact]
    public void BackupThatIsStopped_LeavesNothing()
    {
        Assert.Throws<OperationCanceledException>(() => _nightly.Look(new CancellationToken(canceled: true)));
        Assert.Empty(Kept);
        File.WriteAllText(Path.Combine(Shelf, "curewatch-test-shop-20260504T081000Z.zip.new"), "of an end in the middle");
        Look();
        Assert.Equal(["curewatch-test-shop-20260504T082000Z.zip"], Kept);
    }

    private void Begin(TimeSpan? keepJournal = null)
    {
        var storage = new StorageSettings(new BackupSettings(Shelf, new TimeOnly(3, 30), 3, 0, 0), keepJournal);
        var settings = new ServiceSettings(null!, _data.Folder, null!, null!) { Storage = storage };
        _health = new BackupHealth(settings, _data.Pumped.Clock);
        _nightly = new NightlyBackup(
            _folder,
            "test",
            storage,
            _data.Pumped.Latest,
            () => long.MaxValue,
            () => null,
            _data.Pumped.Troubles,
            _health,
            _data.Pumped.Clock,
            NullLogger<NightlyBackup>.Instance);
    }

    private void Look() => _nightly.Look(TestContext.Current.CancellationToken);

    private void Pass(TimeSpan span)
    {
        for (TimeSpan passed = TimeSpan.Zero; passed < span; passed += TimeSpan.FromMinutes(1))
        {
            _data.Pumped.Clock.Advance(TimeSpan.FromMinutes(1));
            Look();
        }
    }

    private (DateTimeOffset? At, string? Age) Health()
    {
        using var text = new StringWriter();
        JsonOutput.WriteDocument(text, json =>
        {
            json.WriteStartObject();
            _health.Write(json);
            json.WriteEndObject();
        });
        JsonElement backup = JsonElement.Parse(text.ToString()).GetProperty("backup");
        JsonElement at = backup.GetProperty("at");
        return (at.ValueKind == JsonValueKind.Null ? null : at.GetDateTimeOffset(), backup.GetProperty("age").GetString());
    }
}
