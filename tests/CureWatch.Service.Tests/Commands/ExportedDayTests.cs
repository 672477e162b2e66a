using System.Text.Json;
using CureWatch.Service.Disk;
using CureWatch.Service.Journal;
using CureWatch.Service.Pump;
using CureWatch.Service.Settings;
using CureWatch.Service.Tests.Pump;
using CureWatch.Service.Tests.Settings;

namespace CureWatch.Service.Tests.Commands;

/// <summary>What of a day is in the forms people write it in: the numbers of its readings, and the settings it was lived under.</summary>
public sealed class ExportedDayTests : IDisposable
{
    private readonly Written _written = new();

    public void Dispose() => _written.Dispose();

    // A probe that counts its readings and has no clock, one reading of it sent twice, and two at one instant.
    [Fact]
    public async Task Export_OfReadingsWithNumbersAndWithoutAClock_ReplaysAsItsJournal()
    {
        using var pumped = new Pumped();
        await pumped.StartJob();
        for (int minute = 0; minute < 40; minute++)
        {
            pumped.Clock.Advance(TimeSpan.FromMinutes(1));
            DateTimeOffset? at = minute < 20 ? null : pumped.Clock.GetUtcNow().AddSeconds(-minute % 2);
            _ = await pumped.Ask(new Arrival.Reading(new Entry.Reading("bay-1", "air-1", at, 20 + (minute % 7 / 10.0), 50, null, minute)));
            _ = await pumped.Ask(new Arrival.Reading(new Entry.Reading("bay-1", "air-1", at, 20.5, 51, null, minute % 3 == 0 ? minute : minute + 1000)));
            if (minute is 3 or 6)
            {
                Assert.IsType<Answer.Stored>(await pumped.Tap($$"""{"at":"{{UtcText.Of(pumped.Clock.GetUtcNow())}}","did":"{{(minute == 3 ? "applied" : "levelled")}}"}"""));
            }
        }

        pumped.Stop();
        (JsonElement fromJournal, JsonElement fromFiles) = ExportedReplay.Of(_written.Folder, pumped.Folder, "job-1");
        ExportedReplay.AssertSame(fromJournal, fromFiles, "surfaces", "handover", "taps", "readings");
    }

    // The car left, and then its only probe was replaced by one of another name: that is nothing of its day.
    [Fact]
    public async Task Export_OfACarThatLeftBeforeTheBayWasSetUpOtherwise_ReplaysAsItsJournal()
    {
        using var pumped = new Pumped();
        await pumped.StartJob();
        for (int minute = 0; minute < 30; minute++)
        {
            pumped.Clock.Advance(TimeSpan.FromMinutes(1));
            await pumped.Read(20, 50);
            if (minute is 3 or 6)
            {
                Assert.IsType<Answer.Stored>(await pumped.Tap($$"""{"at":"{{UtcText.Of(pumped.Clock.GetUtcNow())}}","did":"{{(minute == 3 ? "applied" : "levelled")}}"}"""));
            }
        }

        Assert.IsType<Answer.Stored>(await pumped.Ask(new Arrival.HandOver("job-1", "Alex", "it had to")));
        pumped.Clock.Advance(TimeSpan.FromDays(3));
        await pumped.Read(20, 50);
        pumped.Stop();
        Recovery recovery = pumped.Recover();
        string shop = recovery.Register.Settings.Documents.First(d => d.Key.Kind == SettingsItem.Shop).Value.Document.Replace("air-1", "air-7", StringComparison.Ordinal);
        using (var journal = new JournalWriter(
            LocalDisk.Instance, DataFolder.JournalOf(pumped.Folder), new EntryCodec(new KeyStore(LocalDisk.Instance, DataFolder.KeysOf(pumped.Folder))), recovery.End))
        {
            journal.Append(new Entry.SettingsChanged(new SettingsItem(SettingsItem.Shop, "test-shop", 0), "other-hash", shop, SettingsOrigin.File), pumped.Clock.GetUtcNow());
            journal.Flush();
        }

        (JsonElement fromJournal, JsonElement fromFiles) = ExportedReplay.Of(_written.Folder, pumped.Folder, "job-1");
        ExportedReplay.AssertSame(fromJournal, fromFiles, "surfaces", "handover", "taps");
    }
}
