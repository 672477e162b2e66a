using System.Text.Json;
using CureWatch.Service.Demo;
using CureWatch.Service.Disk;
using CureWatch.Service.Journal;
using CureWatch.Service.Pump;
using CureWatch.Service.Settings;
using CureWatch.Service.Tests.Demo;
using CureWatch.Service.Tests.Pump;
using CureWatch.Service.Tests.Settings;

namespace CureWatch.Service.Tests.Commands;

/// <summary>A job taken out of a data folder and replayed from files says what the folder itself says.</summary>
public sealed class ExportCommandTests : IDisposable
{
    private readonly Written _written = new();

    private string Out => Path.Combine(_written.Folder, "out");

    public void Dispose() => _written.Dispose();

    [Theory]
    [InlineData(DemoDay.MainJob)]
    [InlineData(DemoDay.SecondJob)] // which has left
    public void Export_OfTheDemoDay_ReplaysAsItsJournal(string job)
    {
        string data = Path.Combine(_written.Folder, "data");
        Directory.CreateDirectory(DataFolder.JournalOf(data));
        Directory.CreateDirectory(DataFolder.KeysOf(data));
        using (var journal = new JournalWriter(LocalDisk.Instance, DataFolder.JournalOf(data), new EntryCodec(new KeyStore(LocalDisk.Instance, DataFolder.KeysOf(data))), JournalEnd.Empty))
        {
            foreach (Step step in FoldedDay.Whole.Steps)
            {
                journal.Append(step.Entry, step.At);
            }

            journal.Flush();
        }

        (JsonElement fromJournal, JsonElement fromFiles) = ExportedReplay.Of(Out, data, job);
        ExportedReplay.AssertSame(fromJournal, fromFiles, "until", "surfaces", "warnings", "handover", "taps");
    }

    [Theory]
    [MemberData(nameof(Seeds))]
    public Task Export_OfAnyDay_ReplaysAsItsJournal(int seed) => AssertReplaysAsItsJournal(seed);

    [Fact(Explicit = true)]
    public async Task Export_OfManyDays_ReplaysAsItsJournal()
    {
        var wrong = new List<string>();
        for (int seed = 1_000; seed < 1_300; seed++)
        {
            try
            {
                await AssertReplaysAsItsJournal(seed);
            }
            catch (Exception e) when (e is not OperationCanceledException)
            {
                wrong.Add($"{seed}: {e.Message}");
            }

            Directory.Delete(Out, recursive: true);
        }

        Assert.Empty(wrong);
    }

    private async Task AssertReplaysAsItsJournal(int seed)
    {
        using var pumped = new Pumped(AnyInputs.Shop);
        foreach ((DateTimeOffset at, IReadOnlyList<Func<Arrival>> arrivals) in new AnyInputs(seed).Groups(40))
        {
            pumped.Clock.SetUtcNow(at);
            await pumped.AskTogether(arrivals.Select(a => a()));
        }

        pumped.Stop();
        (JsonElement fromJournal, JsonElement fromFiles) = ExportedReplay.Of(Out, pumped.Folder, "job-1");
        ExportedReplay.AssertSame(fromJournal, fromFiles, "until", "surfaces", "handover", "taps");
    }

    public static TheoryData<int> Seeds => [.. Enumerable.Range(1, 5)];

    // What the other car taught is in no file of this one; that its coats were begun with it is.
    [Fact]
    public async Task Export_OfACarAfterOneThatTaught_ReplaysAsItsJournal()
    {
        using var pumped = new Pumped();
        DateTimeOffset start = pumped.Clock.GetUtcNow();
        await pumped.StartJob();
        await PassAsync(pumped, 5);
        await TellAsync(pumped, "job-1", "applied");
        await PassAsync(pumped, 2);
        await TellAsync(pumped, "job-1", "flashed");
        await PassAsync(pumped, 20);
        await pumped.StartJob("""{"job":"job-2","bay":"bay-1","surfaces":[{"surface":"roof","material":"steel","product":"paint"}]}""");
        await TellAsync(pumped, "job-2", "applied");
        await PassAsync(pumped, 3);
        await TellAsync(pumped, "job-2", "flashed");
        await PassAsync(pumped, 30);
        Assert.IsType<Answer.Stored>(await pumped.Ask(new Arrival.LearningReset("reset", """{"product":"paint","by":"Robin"}"""u8.ToArray())));
        await PassAsync(pumped, 5);
        pumped.Stop();
        Assert.Equal(start.AddMinutes(65), pumped.Register.At);
        (JsonElement fromJournal, JsonElement fromFiles) = ExportedReplay.Of(Out, pumped.Folder, "job-2");
        ExportedReplay.AssertSame(fromJournal, fromFiles, "surfaces", "handover", "taps");
        JsonElement flash = fromFiles.GetProperty("surfaces")[0].GetProperty("coats")[0].GetProperty("learnt").GetProperty("flash");
        Assert.Equal(1, flash.GetProperty("taps").GetInt32());
        Assert.Empty(fromJournal.GetProperty("learning").EnumerateArray());
        Assert.Single(fromFiles.GetProperty("learning").EnumerateArray());

        static async Task PassAsync(Pumped pumped, int minutes)
        {
            for (int minute = 0; minute < minutes; minute++)
            {
                pumped.Clock.Advance(TimeSpan.FromMinutes(1));
                await pumped.Read(21.3, 52);
            }
        }

        static async Task TellAsync(Pumped pumped, string job, string did) =>
            Assert.IsType<Answer.Stored>(await pumped.Tap($$"""{"at":"{{UtcText.Of(pumped.Clock.GetUtcNow())}}","did":"{{did}}"}""", job));
    }

    // Nobody had measured for more than a year when the second car came: replay refused it. A year after that nothing moves any more.
    [Theory]
    [InlineData("job-1", 0)]
    [InlineData("job-2", 400)]
    public async Task Export_OfAShopInWhichNobodyMeasuredForMoreThanAYear_IsTakenByReplay(string job, int daysAfter)
    {
        using var pumped = new Pumped();
        await pumped.Read(20, 50);
        await pumped.StartJob();
        Assert.IsType<Answer.Stored>(await pumped.Tap($$"""{"at":"{{UtcText.Of(pumped.Clock.GetUtcNow())}}","did":"applied"}"""));
        pumped.Clock.Advance(TimeSpan.FromMinutes(10));
        await pumped.Read(20, 50);
        pumped.Clock.Advance(TimeSpan.FromDays(400));
        Assert.IsType<Answer.Stored>(await pumped.StartJob("""{"job":"job-2","bay":"bay-1","surfaces":[{"surface":"roof","material":"steel","product":"paint"}]}"""));
        Assert.IsType<Answer.Stored>(await pumped.Tap($$"""{"at":"{{UtcText.Of(pumped.Clock.GetUtcNow())}}","did":"applied"}""", "job-2"));
        if (daysAfter > 0)
        {
            pumped.Clock.Advance(TimeSpan.FromDays(daysAfter));
            Assert.IsType<Answer.Stored>(await pumped.StartJob("""{"job":"job-3","bay":"bay-1","surfaces":[{"surface":"roof","material":"steel","product":"paint"}]}"""));
        }

        pumped.Stop();

        (JsonElement fromJournal, JsonElement fromFiles) = ExportedReplay.Of(Out, pumped.Folder, job);
        ExportedReplay.AssertSame(fromJournal, fromFiles, "surfaces", "handover", "taps");
        Assert.Equal("hold", fromFiles.GetProperty("handover").GetProperty("verdict").GetString());
    }

    // Washing beside an open coat warned in the shop, and in no replay of its export.
    [Fact]
    public async Task Export_OfADayWithPlannedWorkAndVisits_ReplaysAsItsJournal()
    {
        using var pumped = new Pumped();
        await pumped.Read(20, 50);
        await pumped.StartJob();
        await pumped.StartJob("""{"job":"job-2","bay":"bay-1","surfaces":[{"surface":"roof","material":"steel","product":"paint"}]}""");
        string At(double minutes) => UtcText.Of(pumped.Clock.GetUtcNow().AddMinutes(minutes));
        Assert.IsType<Answer.Stored>(await pumped.Tap($$"""{"at":"{{At(0)}}","did":"applied"}"""));
        Assert.IsType<Answer.Stored>(await PlanAsync(PlanVerb.Visit, "job-2", $$"""{"arrivesAt":"{{At(90)}}"}"""));
        Assert.IsType<Answer.Stored>(await PlanAsync(PlanVerb.Put, "wash", $$"""{"bay":"bay-1","work":"washing","from":"{{At(20)}}","to":"{{At(50)}}","by":"Robin","note":"the red one"}"""));
        Assert.IsType<Answer.Stored>(await PlanAsync(PlanVerb.Put, "sand", $$"""{"bay":"bay-1","work":"sanding","from":"{{At(30)}}","to":"{{At(60)}}"}"""));
        for (int minute = 0; minute < 40; minute++)
        {
            pumped.Clock.Advance(TimeSpan.FromMinutes(1));
            await pumped.Read(20, 50);
            if (minute == 5)
            {
                Assert.IsType<Answer.Stored>(await PlanAsync(PlanVerb.Drop, "sand", "{}"));
            }
        }

        Assert.IsType<Answer.Stored>(await PlanAsync(PlanVerb.Cancel, "job-2", "{}"));
        pumped.Stop();

        (JsonElement fromJournal, JsonElement fromFiles) = ExportedReplay.Of(Out, pumped.Folder, "job-1");
        ExportedReplay.AssertSame(fromJournal, fromFiles, "surfaces", "taps");
        Assert.Equal(fromJournal.GetProperty("warnings").GetRawText(), fromFiles.GetProperty("warnings").GetRawText());
        Assert.Equal(["airspace-conflict"], fromFiles.GetProperty("warnings").EnumerateArray().Select(w => w.GetProperty("kind").GetString()).Where(k => k == "airspace-conflict"));

        Task<Answer> PlanAsync(PlanVerb verb, string id, string json) => pumped.Ask(new Arrival.Planned(verb, "plan", id, System.Text.Encoding.UTF8.GetBytes(json)));
    }

    // What the other car was called on the way out was the name of the car that was asked for, and the replay refused them both.
    [Fact]
    public async Task Export_OfACarThatIsCalledAsTheOtherOneWouldBe_ReplaysAsItsJournalUntilItWasClosed()
    {
        using var pumped = new Pumped();
        await pumped.Read(20, 50);
        foreach (string job in new[] { "grey", "beside-1", "beside-2" })
        {
            await pumped.StartJob($$"""{"job":"{{job}}","bay":"bay-1","surfaces":[{"surface":"roof","material":"steel","product":"paint"}]}""");
            Assert.IsType<Answer.Stored>(await pumped.Tap($$"""{"at":"{{UtcText.Of(pumped.Clock.GetUtcNow())}}","did":"applied"}""", job));
        }

        for (int hour = 0; hour < 60; hour++)
        {
            pumped.Clock.Advance(TimeSpan.FromHours(1));
            await pumped.Read(20 + (hour % 3), 50);
            if (hour == 3)
            {
                Assert.IsType<Answer.Stored>(await pumped.Ask(new Arrival.HandOver("beside-1", "Alex", "it had to")));
            }
        }

        pumped.Stop();
        foreach (string job in new[] { "beside-1", "beside-2", "grey" })
        {
            (JsonElement fromJournal, JsonElement fromFiles) = ExportedReplay.Of(Out, pumped.Folder, job);
            ExportedReplay.AssertSame(fromJournal, fromFiles, "until", "surfaces", "handover", "taps");
            Directory.Delete(Out, recursive: true);
        }
    }

    [Fact]
    public void Export_IntoAFolderWithFiles_IsRefused()
    {
        _written.File("out/holiday.txt", "");
        Invocation.Of("export", "--data", Path.Combine(_written.Folder, "data"), "--job", "job-1", Out).AssertRefused(
            $"{Path.Combine(_written.Folder, "data")}: data folder");
    }
}
