using System.Text.Json;
using CureWatch.Service.Mqtt;

namespace CureWatch.Service.Tests.Mqtt;

/// <summary>What has to be the same whichever broker a shop uses, by the tools people have at hand.</summary>
public class BothBrokersTests
{
    private const string Climate = $"{ShopRig.Root}/bay-1/climate";

    [Theory]
    [InlineData(false, "-q", "0")]
    [InlineData(false, "-q", "1")]
    [InlineData(false, "-q", "2")]
    [InlineData(true, "-q", "0")]
    [InlineData(true, "-q", "1")]
    public async Task Reading_WithoutATime_IsSeenAsClimate(bool isExternal, params string[] options)
    {
        await using Mosquitto? outside = isExternal ? await Mosquitto.StartAsync() : null;
        await using ShopRig rig = await ShopRig.StartAsync(isExternal ? LinkRig.At(outside!.Port) : null);
        int port = outside?.Port ?? rig.Port;
        await using Watcher watcher = await Watcher.ConnectAsync(port);
        await watcher.SeesAsync($"{ShopRig.Root}/status", s => s == "online");

        await Mosquitto.PublishAsync(port, ["-V", "5", "-t", ShopRig.AirTopic, "-m", """{"temperatureC":20,"humidityPct":50}""", .. options]);

        await watcher.SeesAsync(Climate, c => c.Length > 0);
        using JsonDocument climate = JsonDocument.Parse(watcher.On(Climate));
        Assert.Equal(9.27, climate.RootElement.GetProperty("dewPointC").GetDouble(), 0.01);
        await using Watcher late = await Watcher.ConnectAsync(port, "late");
        await late.SeesAsync(Climate, c => c.Length > 0);
        Assert.True(late.Seen.Single(s => s.Topic == Climate).IsKept);
    }

    [Fact]
    public async Task Leftovers_OfAnEarlierRun_AreTakenAway()
    {
        await using Mosquitto outside = await Mosquitto.StartAsync();
        foreach (string topic in Leftovers)
        {
            await Mosquitto.PublishAsync(outside.Port, "-V", "5", "-r", "-t", $"{ShopRig.Root}/{topic}", "-m", "{}");
        }

        await using ShopRig rig = await ShopRig.StartAsync(LinkRig.At(outside.Port));
        await rig.ReadAsync(20, 50);
        await rig.FlushAsync();

        await Eventually.TrueAsync(() => IsClean(outside.Port).Result, "only what is true");
    }

    [Fact]
    public async Task Broker_ThatLostEverything_IsToldAgain()
    {
        await using Mosquitto outside = await Mosquitto.StartAsync();
        await using ShopRig rig = await ShopRig.StartAsync(LinkRig.At(outside.Port));
        await rig.ReadAsync(20, 50);
        await rig.FlushAsync();
        await outside.StopAsync();
        File.Delete(Path.Combine(outside.Folder, "mosquitto.db"));

        await outside.StartAsync();

        await using Watcher watcher = await Watcher.ConnectAsync(outside.Port);
        await watcher.SeesAsync(Climate, c => c.Length > 0);
        await watcher.SeesAsync($"{ShopRig.Root}/status", s => s == "online");
    }

    [Fact]
    public async Task Journal_ThatCannotBeWritten_IsToldByABrokerOutside_ThatIsNotLeft()
    {
        await using Mosquitto outside = await Mosquitto.StartAsync();
        await using ShopRig rig = await ShopRig.StartAsync(LinkRig.At(outside.Port), segmentBytes: 1);
        await using Watcher watcher = await Watcher.ConnectAsync(outside.Port);
        await watcher.SeesAsync($"{ShopRig.Root}/status", s => s == "online");
        rig.BreakJournal();
        for (int i = 0; i < 20; i++)
        {
            await Mosquitto.PublishAsync(outside.Port, "-V", "5", "-q", "1", "-t", ShopRig.AirTopic, "-m", """{"temperatureC":20,"humidityPct":50}""");
        }

        await watcher.SeesAsync($"{ShopRig.Root}/warnings/storage-trouble", w => w.Length > 0);
        BrokerLink link = rig.Of<BrokerLink>();
        int openings = 0;
        link.Opened += () => Interlocked.Increment(ref openings);
        await Eventually.TrueAsync(() => Volatile.Read(ref openings) >= 2, "connections on which it is sent again");

        await using Watcher late = await Watcher.ConnectAsync(outside.Port, "late");
        await late.SeesAsync($"{ShopRig.Root}/warnings/storage-trouble", w => w.Length > 0);
        Assert.DoesNotContain(watcher.Seen, s => s is { Topic: $"{ShopRig.Root}/status", Payload: "offline" });
    }

    private static readonly string[] Leftovers =
    [
        "bay-1/warnings/7", "bay-9/climate", "bay-9/tonight", "bay-9/morning", "bay-9/plan", "jobs/gone/windows", "jobs/gone/handover", "jobs/gone/start", "jobs/gone/promise",
    ];

    private static async Task<bool> IsClean(int port)
    {
        await using Watcher late = await Watcher.ConnectAsync(port, "late");
        await late.SeesAsync($"{ShopRig.Root}/status", s => s == "online");
        await late.SeesAsync(Climate, s => s.Length > 0);
        return !Leftovers.Any(l => late.On($"{ShopRig.Root}/{l}").Length > 0);
    }
}
