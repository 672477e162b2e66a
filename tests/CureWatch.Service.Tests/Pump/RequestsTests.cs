using CureWatch.Handover;
using CureWatch.Service.Journal;
using CureWatch.Service.Pump;
using CureWatch.Service.Tests.Commands;

namespace CureWatch.Service.Tests.Pump;

/// <summary>What people are answered, by a pump that stores it first.</summary>
public sealed class RequestsTests : IDisposable
{
    private const string Applied = """{"id":"t1","at":"2026-05-04T08:00:00Z","did":"applied","by":"Robin"}""";

    private readonly Pumped _pumped = new();

    public void Dispose() => _pumped.Dispose();

    [Fact]
    public async Task Tap_ToldTwice_ChangesNothing()
    {
        await _pumped.StartJob();
        Assert.IsType<Answer.Stored>(await _pumped.Tap(Applied));
        _pumped.Clock.Advance(TimeSpan.FromMinutes(1));
        Assert.IsType<Answer.Repeated>(await _pumped.Tap(Applied));
        Assert.Single(_pumped.Register.Shop!.JobsInOrder.First().Told);
    }

    [Fact]
    public async Task Tap_WithTheIdOfAnother_IsRefused()
    {
        await _pumped.StartJob();
        await _pumped.Tap(Applied);
        Answer answer = await _pumped.Tap(Applied.Replace("applied", "levelled", StringComparison.Ordinal));
        Assert.Equal("/id", Assert.IsType<Answer.Refused>(answer).Faults.Single().Place);
    }

    // Of a button it may be that neither could be sealed.
    [Theory]
    [InlineData(null, false)]
    [InlineData("bay-1/tap", true)]
    public async Task Tap_ToldAgainWithItsTeller_IsTheSame_OnlyOfAButton(string? button, bool isTheSame)
    {
        await _pumped.StartJob();
        await _pumped.Tap(Applied.Replace(",\"by\":\"Robin\"", "", StringComparison.Ordinal));
        Answer answer = await _pumped.Ask(new Arrival.Tap("tap", "job-1", System.Text.Encoding.UTF8.GetBytes(Applied), button));
        Assert.Equal(isTheSame, answer is Answer.Repeated);
        Assert.Equal(!isTheSame, answer is Answer.Refused);
    }

    [Fact]
    public async Task Tap_OfAClockALittleAhead_ToldAgain_ChangesNothing()
    {
        const string Ahead = """{"id":"t1","at":"2026-05-04T08:01:30Z","startedAt":"2026-05-04T08:00:10Z","did":"applied"}""";
        await _pumped.StartJob();
        Assert.IsType<Answer.Stored>(await _pumped.Tap(Ahead));
        _pumped.Clock.Advance(TimeSpan.FromSeconds(20));
        Assert.IsType<Answer.Repeated>(await _pumped.Tap(Ahead));
        _pumped.Clock.Advance(TimeSpan.FromMinutes(5));
        Assert.IsType<Answer.Repeated>(await _pumped.Tap(Ahead));
        Assert.IsType<Answer.Refused>(await _pumped.Tap(Ahead.Replace("08:01:30", "08:04:30", StringComparison.Ordinal)));
        Assert.Single(_pumped.Register.Shop!.JobsInOrder.First().Told);
    }

    [Theory]
    [InlineData("""{"at":"2026-05-04T08:02:01Z","did":"levelled"}""", "/at")]
    [InlineData("""{"at":"2026-05-04T08:00:00Z","did":"levelled","surface":"roof"}""", "/surface")]
    [InlineData("""{"at":"2026-05-04T08:00:00Z","did":"levelled","corrects":"t9"}""", "/corrects")]
    [InlineData("""{"at":"2026-05-04T08:00:00Z","did":"levelled","colour":"red"}""", "/colour")]
    [InlineData("""{"at":"2026-05-04T08:00:00Z"}""", "/did")]
    [InlineData("""[]""", "")]
    public async Task Tap_ThatCannotBeUsed_NamesThePlace(string json, string place)
    {
        await _pumped.StartJob();
        Assert.Equal(place, Assert.IsType<Answer.Refused>(await _pumped.Tap(json)).Faults[0].Place);
        Assert.Empty(_pumped.Register.Shop!.JobsInOrder.First().Told);
    }

    [Fact]
    public async Task Tap_OfAClockALittleAhead_IsTakenAsNow()
    {
        await _pumped.StartJob();
        await _pumped.Tap("""{"at":"2026-05-04T08:01:30Z","did":"applied"}""");
        Assert.Equal(Journal.Entries.At, _pumped.Register.Shop!.JobsInOrder.First().Told[0].At);
        Assert.Equal(Journal.Entries.At, _pumped.Register.Shop.Now);
    }

    [Fact]
    public async Task Tap_OfAJobNobodyBegan_SaysSo() =>
        Assert.Equal("job-9", Assert.IsType<Answer.NoSuchJob>(await _pumped.Tap("""{"job":"job-9","at":"2026-05-04T08:00:00Z","did":"applied"}""", null)).Job);

    [Fact]
    public async Task Tap_OfAPushButton_IsCountedWhereItIsRefused()
    {
        await _pumped.StartJob();
        foreach (string json in (string[])["{}", "rubbish", """{"job":"job-9","at":"2026-05-04T08:00:00Z","did":"washed"}""", """{"job":"job-1","at":"2026-05-04T08:00:00Z","did":"washed"}"""])
        {
            await _pumped.Ask(new Arrival.Tap("topic", null, System.Text.Encoding.UTF8.GetBytes(json), "bay-1/tap"));
        }

        await _pumped.Tap("{}"); // over HTTP somebody is told
        _pumped.Stop();
        Assert.Equal(
            [("malformed", "bay-1/tap", 2), ("unknown-job", "bay-1/tap", 1)],
            _pumped.Recover().Register.Refusals.Select(r => (r.Key.Reason, r.Key.Place, r.Value)));
    }

    [Fact]
    public async Task Job_Begun_PinsItsSheets()
    {
        await _pumped.StartJob();
        Assert.Equal(new SheetPin("paint", 1, "paint-hash"), Assert.Single(_pumped.Register.Jobs["job-1"].Pins));
        Assert.IsType<Answer.Repeated>(await _pumped.StartJob());
        Answer other = await _pumped.StartJob("""{"job":"job-1","bay":"bay-1","surfaces":[{"surface":"roof","material":"steel","product":"paint"}]}""");
        Assert.Equal("/job", Assert.IsType<Answer.Refused>(other).Faults.Single().Place);
    }

    // The answer was lost with the power, and before the script asks again the shop has got the product's next revision.
    [Fact]
    public async Task Job_ToldAgainAfterANewRevision_IsTheSameJob()
    {
        await _pumped.StartJob();
        var item = new SettingsItem(SettingsItem.Product, "paint", 2);
        string next = RecordedDay.Sheet.Replace("\"revision\":1", "\"revision\":2", StringComparison.Ordinal);
        Register register = _pumped.Register with { Settings = _pumped.Register.Settings.With(new Entry.SettingsChanged(item, "next", next, SettingsOrigin.File)) };
        var again = new Arrival.JobStart("job", """{"job":"job-1","bay":"bay-1","car":"grey","surfaces":[{"surface":"bonnet","material":"steel","product":"paint"}]}"""u8.ToArray());
        Assert.IsType<Answer.Repeated>(Requests.OnJobStart(register, again, _pumped.Clock.GetUtcNow()).Answer);
    }

    [Fact]
    public async Task Handover_OfAHeldCar_NeedsAReason()
    {
        await _pumped.StartJob();
        await _pumped.Tap(Applied);
        Answer held = await _pumped.Ask(new Arrival.HandOver("job-1", "Robin", null));
        Assert.Contains(Assert.IsType<Answer.Held>(held).Holds, h => h.Kind == HoldKind.NotLevelled);
        Assert.IsType<Answer.Stored>(await _pumped.Ask(new Arrival.HandOver("job-1", "Robin", "the owner insisted")));
        Assert.Equal("the owner insisted", _pumped.Register.Jobs["job-1"].HandedOver?.Despite);
        Assert.All(_pumped.Register.Shop!.Jobs.Values, j => Assert.Empty(j.Watched));
        Assert.IsType<Answer.Repeated>(await _pumped.Ask(new Arrival.HandOver("job-1", "Robin", null)));
    }
}
