using CureWatch.Readings;
using CureWatch.Service.Journal;
using CureWatch.Service.Pump;
using CureWatch.Warnings;

namespace CureWatch.Service.Tests.Pump;

public sealed class PumpLoopTests : IDisposable
{
    private const string Applied = """{"id":"t1","at":"2026-05-04T08:00:00Z","did":"applied","by":"Robin"}""";

    private readonly Pumped _pumped = new();

    public void Dispose() => _pumped.Dispose();

    [Fact]
    public async Task Reading_Answered_IsInTheJournalAndSurvivesAStart()
    {
        Assert.IsType<Answer.Stored>(await _pumped.Read(20, 50));
        Assert.Equal(1, _pumped.Recover().Register.Shop!.Tally.Accepted);
        _pumped.Stop();
        _pumped.Start();
        Assert.Equal(1, _pumped.Register.Shop!.Tally.Accepted);
        await _pumped.Read(20, 50);
        Assert.Equal(1, _pumped.Register.Refusals[("duplicate", "bay-1/air-1")]);
    }

    [Fact]
    public async Task Register_Recovered_IsTheLiveOne()
    {
        await _pumped.StartJob();
        await _pumped.Tap(Applied);
        for (int minute = 0; minute < 300; minute++)
        {
            await _pumped.Read(20 + (minute % 7), 50);
            _pumped.Clock.Advance(TimeSpan.FromMinutes(1));
        }

        await _pumped.Ask(new Arrival.Wake());
        _pumped.Stop();
        Recovery recovery = _pumped.Recover();
        Assert.Equal(States.Text(_pumped.Register), States.Text(recovery.Register));
        Assert.Empty(recovery.Facts.Strange);
        Assert.Empty(recovery.Facts.Untold);
        Assert.NotEmpty(recovery.Register.Shop!.Warnings);
    }

    [Fact]
    public async Task Refusals_AreCountedAndFillNoDisk()
    {
        long before = _pumped.Register.Sequence;
        for (int i = 0; i < 5_000; i++)
        {
            await _pumped.Ask(new Arrival.Refusal(Disbelief.UnknownProbe, $"place {i}"));
        }

        Assert.InRange(_pumped.Register.Sequence - before, 1, 2);
        _pumped.Stop();
        Assert.Equal(5_000, _pumped.Recover().Register.Shop!.Tally.Rejected[Disbelief.UnknownProbe]);
        Assert.InRange(_pumped.Recover().Register.Refusals.Count, 2, 501);
    }

    [Fact]
    public async Task Probe_ThatFloods_LeavesTheNextBatchToOthers()
    {
        using var pumped = new Pumped(AnyInputs.Shop);
        DateTimeOffset at = pumped.Clock.GetUtcNow();
        Task[] flood =
        [
            .. Enumerable.Range(0, 100_000).Select(i => pumped.Inbox.PostAsync(
                new Arrival.Reading(new Entry.Reading("bay-1", "air-1", at, 20, 50, null)), TestContext.Current.CancellationToken).AsTask()),
        ];
        long before = pumped.Register.Sequence;
        var quiet = new Arrival.Reading(new Entry.Reading("bay-1", "air-2", at, 20, 50, null));
        await pumped.Inbox.PostAsync(quiet, TestContext.Current.CancellationToken);
        await quiet.Answered.WaitAsync(TestContext.Current.CancellationToken);

        int between = pumped.Commits.SelectMany(c => c.Steps).SkipWhile(s => s.Sequence <= before)
            .TakeWhile(s => s.Entry is not Entry.Reading { Probe: "air-2" }).Count();
        Assert.InRange(between, 0, 3 * 2_000); // the batch under way, one that may have been taken since, and its own
        Assert.Contains(flood, f => !f.IsCompleted);
        pumped.Stop();
        await Task.WhenAll(flood).WaitAsync(TestContext.Current.CancellationToken);
    }

    [Fact]
    public async Task Clock_StepsBack_TimeDoesNot()
    {
        await _pumped.Read(20, 50);
        DateTimeOffset at = _pumped.Register.At;
        _pumped.Clock.AdjustTime(at.AddHours(-5));
        await _pumped.Read(20.1, 50, at.AddSeconds(-30));
        Assert.Equal(at, _pumped.Register.At);
        Assert.Equal(2, _pumped.Register.Shop!.Tally.Accepted);
    }

    [Fact]
    public async Task FellDueWhileNobodyWatched_IsToldOnceAtItsInstant()
    {
        await _pumped.StartJob();
        await _pumped.Read(20, 50);
        await _pumped.Tap(Applied);
        _pumped.Stop();
        _pumped.Clock.Advance(TimeSpan.FromHours(3));
        _pumped.Start();
        Warning missed = Assert.Single(_pumped.Register.Shop!.Warnings.Values, w => w.Subject.Kind == WarningKind.LevelMissed);
        Assert.InRange(missed.RaisedAt, Journal.Entries.At, Journal.Entries.At.AddMinutes(15));
        int count = _pumped.Register.Shop.Warnings.Count;
        _pumped.Stop();
        _pumped.Start();
        Assert.Equal(count, _pumped.Register.Shop!.Warnings.Count);
    }

    [Fact]
    public async Task Journal_ThatCannotBeWritten_TakesNothingMore_AndIsATrouble()
    {
        _pumped.Stop();
        _pumped.Start(segmentBytes: 1);
        Assert.IsType<Answer.Stored>(await _pumped.Read(20, 50));
        long stored = _pumped.Register.Sequence;
        Directory.Delete(DataFolder.JournalOf(_pumped.Folder), recursive: true);
        _pumped.Clock.Advance(TimeSpan.FromMinutes(1));

        string why = Assert.IsType<Answer.NotStored>(await _pumped.Read(21, 50)).Why;

        Trouble trouble = Assert.Single(_pumped.Troubles.Standing);
        Assert.Equal((WarningKind.StorageTrouble, _pumped.Clock.GetUtcNow()), (trouble.Kind, trouble.Since));
        Assert.EndsWith(trouble.Why, why, StringComparison.Ordinal);
        Assert.Equal(why, Assert.IsType<Answer.NotStored>(await _pumped.StartJob()).Why);
        Assert.Equal(stored, _pumped.Register.Sequence);
        Assert.Equal(stored, _pumped.Commits[^1].After.Sequence);
    }

    [Fact]
    public async Task Key_ThatCannotBeWritten_AcknowledgesNothing()
    {
        await _pumped.StartJob();
        Directory.Delete(DataFolder.KeysOf(_pumped.Folder), recursive: true);
        Answer answer = await _pumped.StartJob("""{"job":"job-2","bay":"bay-1","car":"blue","surfaces":[{"surface":"roof","material":"steel","product":"paint"}]}""");
        Assert.IsType<Answer.NotStored>(answer);
        Assert.Null(_pumped.Register.Shop!.Find("job-2"));
        Assert.IsType<Answer.Stored>(await _pumped.Read(20, 50));
        Assert.Equal(WarningKind.StorageAhead, Assert.Single(_pumped.Troubles.Standing).Kind);

        Directory.CreateDirectory(DataFolder.KeysOf(_pumped.Folder));
        await PassMinuteAsync();
        Assert.Empty(_pumped.Troubles.Standing);
        Assert.DoesNotContain(Directory.GetFiles(DataFolder.KeysOf(_pumped.Folder)), f => !f.Contains("job-job-", StringComparison.Ordinal));
    }

    [Fact]
    public async Task Tap_OfAPushButtonWithoutAKey_IsTakenWithoutTheName_AndToldUntilThatKeyIsOne()
    {
        await _pumped.StartJob();
        await _pumped.Read(20, 50);
        string key = Directory.GetFiles(DataFolder.KeysOf(_pumped.Folder)).Single();
        byte[] whole = File.ReadAllBytes(key);
        _pumped.Stop();
        File.WriteAllBytes(key, whole[..7]);
        _pumped.Start();
        const string ByAlex = """{"at":"2026-05-04T08:00:00Z","did":"applied","surface":"bonnet","by":"Alex","note":"left side"}""";

        Answer byButton = await _pumped.Ask(new Arrival.Tap("tap", "job-1", System.Text.Encoding.UTF8.GetBytes(ByAlex), "bay-1/tap"));
        Answer byPerson = await _pumped.Tap(ByAlex);

        Assert.IsType<Answer.Stored>(byButton);
        Assert.IsType<Answer.NotStored>(byPerson); // who reads the answer is asked to tell it again
        Curing.Tap tap = Assert.Single(_pumped.Register.Shop!.Find("job-1")!.Told);
        Assert.Equal((null, null), (tap.By, tap.Note));
        await PassMinuteAsync();
        Assert.EndsWith($"({key} is no key)", Assert.Single(_pumped.Troubles.Standing).Why, StringComparison.Ordinal);
        File.WriteAllBytes(key, whole);
        await PassMinuteAsync();
        Assert.Empty(_pumped.Troubles.Standing);
        Assert.IsType<Answer.Stored>(await _pumped.Tap(ByAlex));
    }

    private async Task PassMinuteAsync()
    {
        _pumped.Clock.Advance(TimeSpan.FromMinutes(1));
        await _pumped.Read(20.5, 50);
        await _pumped.Read(20, 50);
    }
}
