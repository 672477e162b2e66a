using System.Text.Json;
using CureWatch.Service.Documents;
using CureWatch.Service.Pump;
using CureWatch.Service.Tests.Commands;
using CureWatch.Warnings;

namespace CureWatch.Service.Tests.Mqtt;

public class OutputsTests
{
    private const string Climate = $"{ShopRig.Root}/bay-1/climate";
    private const string Storage = $"{ShopRig.Root}/warnings/storage-trouble";
    private const string Windows = $"{ShopRig.Root}/jobs/job-1/windows";
    private const string Start = $"{ShopRig.Root}/jobs/job-1/start";
    private const string Handover = $"{ShopRig.Root}/jobs/job-1/handover";

    [Fact]
    public async Task Status_IsKeptAsOnline_AndOfflineAtTheEnd()
    {
        await using ShopRig rig = await ShopRig.StartAsync();
        await rig.FlushAsync();
        await using Watcher watcher = await Watcher.ConnectAsync(rig.Port);

        await watcher.SeesAsync($"{ShopRig.Root}/status", s => s == "online");
        await rig.StopAsync();
        await watcher.SeesAsync($"{ShopRig.Root}/status", s => s == "offline");
    }

    [Fact]
    public async Task Climate_CarriesTheKeysOfTheCommand_AndWhenItWasMeasured()
    {
        await using ShopRig rig = await ShopRig.StartAsync();
        await rig.ReadAsync(20, 50);
        await rig.FlushAsync();
        await using Watcher watcher = await Watcher.ConnectAsync(rig.Port);

        await watcher.SeesAsync(Climate, c => c.Length > 0);
        using JsonDocument climate = JsonDocument.Parse(watcher.On(Climate));
        using JsonDocument command = JsonDocument.Parse(Invocation.Of("climate", "--air", "20", "--humidity", "50", "--panel", "20", "--json").Output);
        Assert.Equal(
            [.. command.RootElement.EnumerateObject().Select(p => p.Name).Append("at").Order()],
            climate.RootElement.EnumerateObject().Select(p => p.Name).Order());
        Assert.Equal(9.27, climate.RootElement.GetProperty("dewPointC").GetDouble(), 0.01);
        Assert.Equal("2026-05-04T08:00:00Z", climate.RootElement.GetProperty("at").GetString());
        Assert.True(watcher.Seen.Single(s => s.Topic == Climate).IsKept);
    }

    [Fact]
    public async Task Trouble_IsKeptWhileItStands()
    {
        await using ShopRig rig = await ShopRig.StartAsync();
        await rig.FlushAsync();
        await using Watcher watcher = await Watcher.ConnectAsync(rig.Port);
        rig.Of<Troubles>().Raise(WarningKind.StorageTrouble, "the disk is full");

        await watcher.SeesAsync(Storage, t => t.Contains("\"cause\":\"The journal cannot be written: the disk is full.\"", StringComparison.Ordinal));

        await using Watcher late = await Watcher.ConnectAsync(rig.Port, "late");
        await late.SeesAsync(Storage, t => t.Length > 0);
        rig.Of<Troubles>().Clear(WarningKind.StorageTrouble);
        await watcher.SeesAsync(Storage, t => t.Length == 0);
    }

    [Fact]
    public async Task Journal_ThatCannotBeWritten_IsToldOverMqtt()
    {
        await using ShopRig rig = await ShopRig.StartAsync(segmentBytes: 1);
        await rig.FlushAsync();
        await using Watcher watcher = await Watcher.ConnectAsync(rig.Port);
        rig.BreakJournal();

        Assert.IsType<Answer.NotStored>(await rig.ReadAsync(20, 50));

        await watcher.SeesAsync(Storage, t => t.Contains("\"kind\":\"storage-trouble\"", StringComparison.Ordinal));
    }

    [Fact]
    public async Task Trouble_ThatAnEarlierRunLeftBehind_IsTakenAway()
    {
        await using Mosquitto broker = await Mosquitto.StartAsync();
        await Mosquitto.PublishAsync(broker.Port, "-V", "5", "-r", "-q", "1", "-t", Storage, "-m", "left behind");
        await using Watcher watcher = await Watcher.ConnectAsync(broker.Port);
        await watcher.SeesAsync(Storage, t => t.Length > 0);

        await using ShopRig rig = await ShopRig.StartAsync(LinkRig.At(broker.Port));

        await watcher.SeesAsync(Storage, t => t.Length == 0);
    }

    [Fact]
    public async Task Climate_OfABayNobodyHears_IsEmptied()
    {
        await using ShopRig rig = await ShopRig.StartAsync();
        await rig.ReadAsync(20, 50);
        await rig.FlushAsync();
        await using Watcher watcher = await Watcher.ConnectAsync(rig.Port);
        await watcher.SeesAsync(Climate, c => c.Length > 0);

        rig.Clock.Advance(TimeSpan.FromHours(1));
        await rig.AskAsync(new Arrival.Wake());

        await watcher.SeesAsync(Climate, c => c.Length == 0);
    }

    [Fact]
    public async Task Start_IsKept_ChangesWithWhatPeopleTell_AndIsEmptiedWhenTheCarLeaves()
    {
        await using ShopRig rig = await ShopRig.StartAsync();
        await rig.ReadAsync(20, 50);
        await rig.StartJobAsync();
        await rig.FlushAsync();
        await using Watcher watcher = await Watcher.ConnectAsync(rig.Port);
        await watcher.SeesAsync(Start, s => s.Contains("\"verdict\":\"no\"", StringComparison.Ordinal) && s.Contains("not-wiped", StringComparison.Ordinal));
        Assert.True(watcher.Seen.Single(s => s.Topic == Start).IsKept);

        await rig.TapAsync("panel-wiped");
        await watcher.SeesAsync(Start, s => s.Contains("\"verdict\":\"wait\"", StringComparison.Ordinal));
        await rig.PassAsync(4);
        await watcher.SeesAsync(Start, s => s.Contains("\"verdict\":\"yes\"", StringComparison.Ordinal));
        await rig.AskAsync(new Arrival.HandOver("job-1", null, "it must"));
        await watcher.SeesAsync(Start, s => s.Length == 0);
    }

    [Fact]
    public async Task Job_HasWindowsAndHandover_AsAReplayWritesThem()
    {
        await using ShopRig rig = await ShopRig.StartAsync();
        await rig.StartJobAsync();
        await rig.TapAsync("applied");
        await rig.PassAsync(4);
        await rig.TapAsync("levelled");
        await rig.PassAsync(60);
        await rig.FlushAsync();
        await using Watcher watcher = await Watcher.ConnectAsync(rig.Port);
        await watcher.SeesAsync(Windows, w => w.Length > 0);
        await watcher.SeesAsync(Handover, w => w.Length > 0);

        using var replay = new StringWriter();
        JsonOutput.WriteDocument(replay, json => ReplayJson.Write(
            json, Bays.JobReport.Of(rig.Register.Shop!, "job-1"), rig.Register.Shop!.Tally));
        using JsonDocument whole = JsonDocument.Parse(replay.ToString());
        using JsonDocument windows = JsonDocument.Parse(watcher.On(Windows)), handover = JsonDocument.Parse(watcher.On(Handover));
        Assert.Equal(whole.RootElement.GetProperty("surfaces").GetRawText(), windows.RootElement.GetProperty("surfaces").GetRawText());
        Assert.Equal("job-1", windows.RootElement.GetProperty("job").GetString());
        foreach (string key in new[] { "assumes", "next", "then", "coolDowns" })
        {
            Assert.Equal(whole.RootElement.GetProperty(key).GetRawText(), windows.RootElement.GetProperty(key).GetRawText());
        }

        Assert.Equal("2026-05-04T09:04:00Z", windows.RootElement.GetProperty("at").GetString());
        foreach (JsonProperty property in whole.RootElement.GetProperty("handover").EnumerateObject())
        {
            Assert.Equal(property.Value.GetRawText(), handover.RootElement.GetProperty(property.Name).GetRawText());
        }
    }

    [Fact]
    public async Task Job_OfACarThatLeft_IsEmptied()
    {
        await using ShopRig rig = await ShopRig.StartAsync();
        await rig.StartJobAsync();
        await rig.FlushAsync();
        await using Watcher watcher = await Watcher.ConnectAsync(rig.Port);
        await watcher.SeesAsync(Handover, w => w.Length > 0);

        await rig.AskAsync(new Arrival.HandOver("job-1", "Robin", "the customer insists"));

        await watcher.SeesAsync(Windows, w => w.Length == 0);
        await watcher.SeesAsync(Handover, w => w.Length == 0);
    }

    [Fact]
    public async Task Warning_IsKeptWhileItStands()
    {
        await using ShopRig rig = await ShopRig.StartAsync();
        await rig.ReadAsync(20, 50);
        await rig.StartJobAsync();
        await rig.TapAsync("applied");
        await rig.PassAsync(4);
        await using Watcher watcher = await Watcher.ConnectAsync(rig.Port);
        int number = rig.Register.Shop!.Standing.Values.Min();
        string topic = $"{ShopRig.Root}/bay-1/warnings/{number}";

        await watcher.SeesAsync(topic, w => w.Length > 0);
        using JsonDocument warning = JsonDocument.Parse(watcher.On(topic));
        Assert.Equal(
            ["kind", "bay", "probe", "job", "surface", "layer", "section", "raisedAt", "leadMinutes", "priority", "cause", "consequence", "action", "caution", "wakes"],
            warning.RootElement.EnumerateObject().Select(p => p.Name));
        Assert.Equal(("level-due", "bay-1", "job-1"), (
            warning.RootElement.GetProperty("kind").GetString(),
            warning.RootElement.GetProperty("bay").GetString(),
            warning.RootElement.GetProperty("job").GetString()));

        await rig.TapAsync("levelled");
        await watcher.SeesAsync(topic, w => w.Length == 0);
    }

    [Fact]
    public async Task Document_ThatSaysTheSame_IsNotPublishedAgain()
    {
        await using ShopRig rig = await ShopRig.StartAsync();
        await rig.ReadAsync(20, 50);
        await rig.StartJobAsync();
        await rig.FlushAsync();
        await using Watcher watcher = await Watcher.ConnectAsync(rig.Port);
        await watcher.SeesAsync(Windows, w => w.Length > 0);
        await watcher.SeesAsync(Climate, c => c.Length > 0);

        for (int i = 0; i < 5; i++)
        {
            rig.Clock.Advance(TimeSpan.FromSeconds(10));
            await rig.ReadAsync(20, 50);
            await rig.FlushAsync();
        }

        await watcher.SeesAsync(Climate, c => c.Contains("08:00:50", StringComparison.Ordinal));
        Assert.Equal((6, 1), (watcher.CountOn(Climate), watcher.CountOn(Windows)));
    }

    [Fact]
    public async Task Documents_OfABurst_AreCoalesced()
    {
        await using ShopRig rig = await ShopRig.StartAsync();
        await using Watcher watcher = await Watcher.ConnectAsync(rig.Port);

        for (int i = 0; i < 200; i++)
        {
            rig.Clock.Advance(TimeSpan.FromSeconds(1));
            await rig.ReadAsync(20, 50);
        }

        await watcher.SeesAsync(Climate, c => c.Contains("08:03:20", StringComparison.Ordinal));
        Assert.InRange(watcher.CountOn(Climate), 1, 100);
    }

    [Fact]
    public async Task Everything_IsPublishedAgainAtAStart()
    {
        await using ShopRig rig = await ShopRig.StartAsync();
        await rig.ReadAsync(20, 50);
        await rig.StartJobAsync();
        await rig.StopAsync();

        await rig.StartAsync();
        await using Watcher watcher = await Watcher.ConnectAsync(rig.Port);

        await watcher.SeesAsync(Climate, c => c.Length > 0);
        await watcher.SeesAsync(Handover, c => c.Length > 0);
    }
}
