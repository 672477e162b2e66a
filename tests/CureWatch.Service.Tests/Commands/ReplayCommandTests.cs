using System.Globalization;
using System.Text.Json;
using CureWatch.Service.Tests.Settings;

namespace CureWatch.Service.Tests.Commands;

public sealed class ReplayCommandTests : IDisposable
{
    private readonly RecordedDay _day = new();

    public void Dispose() => _day.Dispose();

    [Fact]
    public void Day_ThatEndsReady_ExitsZero_WithOneDocument()
    {
        Invocation replay = _day.Replay("--json");
        using JsonDocument document = JsonDocument.Parse(replay.Output);
        JsonElement root = document.RootElement;
        Assert.Equal(0, replay.ExitCode);
        Assert.Empty(replay.Error);
        Assert.Equal("ready", root.GetProperty("handover").GetProperty("verdict").GetString());
        Assert.Equal(1801, root.GetProperty("readings").GetProperty("accepted").GetInt32());
        Assert.Equal("2026-05-05T14:00:00Z", root.GetProperty("until").GetString());
    }

    [Fact]
    public void Windows_AtTheReferenceClimate_AreTheSheetsTimes()
    {
        JsonElement coat = Coat(_day.Replay("--json"));
        string[] stages = [.. coat.GetProperty("windows").EnumerateArray().Select(w => w.GetProperty("stage").GetString()!)];
        Assert.Equal(["flash", "level-off", "keep-dry"], stages);
        Assert.Equal("2026-05-04T09:01:00Z", Likely(coat, 0, "closesAt"));
        Assert.Equal("2026-05-04T09:08:00Z", Likely(coat, 1, "closesAt"));
        Assert.Equal("2026-05-04T21:04:00Z", Likely(coat, 2, "closesAt"));
    }

    [Fact]
    public void Until_InKeepDry_IsAHold_AndExitsOne()
    {
        Invocation replay = _day.Replay("--json", "--until", "2026-05-04T20:00:00+01:00");
        using JsonDocument document = JsonDocument.Parse(replay.Output);
        JsonElement handover = document.RootElement.GetProperty("handover");
        Assert.Equal(1, replay.ExitCode);
        Assert.Equal("keep-dry", Assert.Single(handover.GetProperty("holds").EnumerateArray()).GetProperty("kind").GetString());
        double low = document.RootElement.GetProperty("surfaces")[0].GetProperty("coats")[0].GetProperty("referenceHours").GetProperty("low").GetDouble();
        Assert.InRange(low, 6.5, 8.5); // no probe is on its panel: the low end counts it 2 K colder, as the release does
    }

    [Fact]
    public void Replay_Repeated_IsTheSameToTheByte()
    {
        _day.WriteReadings(40, hour => (18 + (3 * Math.Sin(hour)), 60 + (20 * Math.Sin(hour / 3))));
        Assert.Equal(_day.Replay("--json").Output, _day.Replay("--json").Output);
    }

    [Fact]
    public void Words_NameTheHandover() => Assert.StartsWith("job-1 at Tue 15:00:00: ready", _day.Replay().Output, StringComparison.Ordinal);

    [Fact]
    public void Faults_InEveryFile_AreAllTold()
    {
        _day.Write("readings.csv", "time,bay,probe,air_c,humidity_pct,panel_c\n2026-05-04T08:00:00Z,bay-1,air-1,\"20,5\",50,\nyesterday,bay-1,air-1,20,50,\n");
        _day.Write("job.json", RecordedDay.Job.Replace("steel", "gold", StringComparison.Ordinal).Replace("levelled", "polishd", StringComparison.Ordinal));
        Invocation replay = _day.Replay("--json");
        Assert.Equal(2, replay.ExitCode);
        Assert.Empty(replay.Output);
        Assert.Equal(4, replay.Faults.Length);
        Assert.Contains(replay.Faults, f => f.Contains("line 2", StringComparison.Ordinal) && f.Contains("20,5", StringComparison.Ordinal));
        Assert.Contains(replay.Faults, f => f.Contains("/surfaces/0/material", StringComparison.Ordinal));
        Assert.Contains(replay.Faults, f => f.Contains("/taps/1/did", StringComparison.Ordinal));
    }

    [Fact]
    public void Until_WithoutAnOffset_IsRefused() => _day.Replay("--until", "2026-05-04T20:00:00").AssertRefused("--until");

    [Fact]
    public void Options_Missing_AreRefusedOneByOne() => Invocation.Of("replay").AssertRefused("--config", "--readings", "--job");

    [Fact]
    public void GermanMachine_AnswersTheSame()
    {
        string here = _day.Replay("--json").Output;
        CultureInfo before = CultureInfo.CurrentCulture;
        try
        {
            CultureInfo.CurrentCulture = new CultureInfo("") { NumberFormat = { NumberDecimalSeparator = ",", NumberGroupSeparator = "." } };
            Assert.Equal(here, _day.Replay("--json").Output);
        }
        finally
        {
            CultureInfo.CurrentCulture = before;
        }
    }

    // An exported job ended in a stack trace where the replay stopped before its car came, or went on for days after it left.
    [Fact]
    public void ExportedJob_UntilBeforeItWasBegun_IsRefusedInOneLine()
    {
        _day.Write("job.json", Exported());
        _day.Replay("--json", "--until", "2026-05-04T08:10:00Z").AssertRefused($"{_day.JobFile}: /recorded/order");
    }

    [Fact]
    public void ExportedJob_UntilLongAfterItsCarLeft_IsAsItStoodWhenTheShopLetGoOfIt()
    {
        _day.Write("job.json", Exported());
        JsonElement late = Coat(_day.Replay("--json", "--until", "2026-06-01T08:00:00Z"));
        Assert.Equal("2026-05-04T21:04:00Z", Likely(late, 2, "closesAt"));
    }

    [Fact]
    public void ExportedJob_WithFewerReadingsThanItCameAfter_IsToldOfAllTheSame()
    {
        _day.Write("job.json", Exported());
        _day.WriteReadings(2, _ => (20, 50));
        Assert.Equal("2026-05-04T09:04:00Z", Coat(_day.Replay("--json")).GetProperty("levelledAt").GetString());
    }

    // Whatever was said to have happened was taken as told: a car left in 2099, and the replay went on until then.
    [Theory]
    [InlineData("/recorded/openedAt", "\"2026-05-05T14:00:00.001Z\"", "saw 2026-05-05T14:00:00.001Z; allowed: no later than the first reading, 2026-05-04T08:00:00Z", true)]
    [InlineData("/recorded/openedAt", "\"2026-05-04T08:00:00.001Z\"", "saw 2026-05-04T08:00:00.001Z; allowed: no later than the first reading, 2026-05-04T08:00:00Z")]
    [InlineData("/recorded/order/2/at", "\"2026-05-04T09:05:30Z\"", "saw 2026-05-04T09:05:30Z; allowed: no later than the reading after it, 2026-05-04T09:05:00Z")]
    [InlineData("/recorded/order/1/at", "\"2026-05-04T09:00:00.0000001Z\"", null)]
    [InlineData("/recorded/order/3/readings", "1800", "saw 2026-05-05T14:00:30Z; allowed: no later than the reading after it, 2026-05-05T14:00:00Z", false, "at")]
    [InlineData("/recorded/order/0/readings", "22", "saw 2026-05-04T08:20:00Z; allowed: no earlier than the reading before it, 2026-05-04T08:21:00Z", false, "at")]
    [InlineData("/recorded/order/3/at", "\"2099-05-05T14:00:30Z\"", "saw 2099-05-05T14:00:30Z; allowed: no later than a year after the last reading, 2027-05-06T14:00:00Z")]
    [InlineData("/recorded/endedAt", "\"2099-05-05T14:00:30Z\"", "saw 2099-05-05T14:00:30Z; allowed: no later than a year after the last reading or event, 2027-05-06T14:00:30Z")]
    public void ExportedJob_ThatCannotLieAmongTheReadings_IsRefusedInOneLine(string changed, string json, string? says, bool isLate = false, string? key = null)
    {
        string job = Edited.At(Exported(), changed, json);
        _day.Write("job.json", isLate ? Edited.At(job, "/recorded/order", Later) : job);
        Invocation replay = _day.Replay("--json");
        if (says is null)
        {
            Assert.Empty(replay.Error);
            return;
        }

        string place = key is null ? changed : $"{changed[..changed.LastIndexOf('/')]}/{key}";
        Assert.Equal($"{_day.JobFile}: {place}: {says}\n", replay.Error.ReplaceLineEndings("\n"));
        Assert.Equal(2, replay.ExitCode);
    }

    private const string Later = """
        [{"readings":1801,"now":"2026-05-05T14:01:00Z","at":"2026-05-05T14:01:00Z","did":"begun","job":0},
         {"readings":1801,"now":"2026-05-05T14:01:00Z","at":"2026-05-05T14:01:00Z","did":"told","job":0,"tap":0},
         {"readings":1801,"now":"2026-05-05T14:01:00Z","at":"2026-05-05T14:01:00Z","did":"told","job":0,"tap":1}]
        """;

    private static string Exported() => Edited.At(
        RecordedDay.Job,
        "/recorded",
        """
        {"openedAt":"2026-05-04T08:00:00Z","beside":[],"order":[
          {"readings":20,"now":"2026-05-04T08:19:00Z","at":"2026-05-04T08:20:00Z","did":"begun","job":0},
          {"readings":61,"now":"2026-05-04T09:00:00Z","at":"2026-05-04T09:00:30Z","did":"told","job":0,"tap":0},
          {"readings":65,"now":"2026-05-04T09:04:00Z","at":"2026-05-04T09:04:30Z","did":"told","job":0,"tap":1},
          {"readings":1801,"now":"2026-05-05T14:00:00Z","at":"2026-05-05T14:00:30Z","did":"left","job":0}]}
        """);

    private static JsonElement Coat(Invocation replay)
    {
        using JsonDocument document = JsonDocument.Parse(replay.Output);
        return document.RootElement.GetProperty("surfaces")[0].GetProperty("coats")[0].Clone();
    }

    private static string? Likely(JsonElement coat, int window, string end) =>
        coat.GetProperty("windows")[window].GetProperty(end).GetProperty("likely").GetString();
}
