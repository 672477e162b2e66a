using System.Text;
using CureWatch.Service.Mqtt;
using MQTTnet;
using MQTTnet.Protocol;

namespace CureWatch.Service.Tests.Mqtt;

/// <summary>A shop with an open coat under ten thousand messages that mean no good. Alone, because the heap is measured.</summary>
[Collection(nameof(Alone))]
public class HostileMessagesTests(ITestOutputHelper output)
{
    private const int Half = 5_000;

    /// <summary>More than the counters of so many made-up names take up. Source (choice): 800 bytes a message would be as much.</summary>
    private const long MostGrowthBytes = 4L << 20;

    [Fact]
    public async Task Messages_OfAnyHostility_AreCountedByReason_AndMoveNothing()
    {
        await using ShopRig rig = await ShopRig.StartAsync();
        await rig.ReadAsync(20, 50);
        await rig.StartJobAsync();
        await rig.TapAsync("applied");
        string before = Outputs(rig);
        Assert.Contains("level-off", before, StringComparison.Ordinal);
        using IMqttClient client = new MqttClientFactory().CreateMqttClient();
        await client.ConnectAsync(
            new MqttClientOptionsBuilder().WithTcpServer("127.0.0.1", rig.Port).WithProtocolVersion(MQTTnet.Formatter.MqttProtocolVersion.V500).Build(),
            TestContext.Current.CancellationToken);
        Hostility.Message[] messages = [.. new Hostility(4, rig.Clock.GetUtcNow()).Messages(2 * Half)];

        await SendAsync(client, messages[..Half]);
        long half = GC.GetTotalMemory(forceFullCollection: true);
        await SendAsync(client, messages[Half..]);
        long whole = GC.GetTotalMemory(forceFullCollection: true);

        Assert.Equal(before, Outputs(rig));
        Assert.Equal(1, rig.Register.Shop!.Tally.Accepted);
        Assert.True(whole - half < MostGrowthBytes, $"{(whole - half) >> 10} kB more after the second half");

        await rig.StopAsync();
        await rig.StartAsync(); // what was counted and not yet journalled is by now
        (string, int)[] counted = [.. rig.Register.Refusals.GroupBy(r => r.Key.Reason).Select(g => (g.Key, g.Sum(r => r.Value))).Order()];
        Assert.Equal(messages.GroupBy(m => m.Reason).Select(g => (g.Key, g.Count())).Order(), counted);
        Assert.Equal(before, Outputs(rig));
        output.WriteLine($"{string.Join(", ", counted)}; heap {half >> 10} kB, then {whole >> 10} kB");
    }

    private static string Outputs(ShopRig rig) => string.Join(
        '\n', OutputDocuments.Climates(rig.Register.Shop!).Concat(OutputDocuments.Cars(rig.Register.Shop!)).OrderBy(d => d.Key, StringComparer.Ordinal).Select(d => $"{d.Key} {Encoding.UTF8.GetString(d.Value.Bytes)}"));

    private static async Task SendAsync(IMqttClient client, Hostility.Message[] messages)
    {
        foreach (Hostility.Message[] some in messages.Chunk(250))
        {
            await Task.WhenAll(some.Select(m => client.PublishAsync(
                new MqttApplicationMessageBuilder().WithTopic(m.Topic).WithPayload(m.Payload)
                    .WithQualityOfServiceLevel(MqttQualityOfServiceLevel.AtLeastOnce).WithRetainFlag(m.IsRetained).Build(),
                TestContext.Current.CancellationToken))).InTimeAsync();
        }
    }
}

/// <summary>For tests that bear no others beside them.</summary>
[CollectionDefinition(nameof(Alone), DisableParallelization = true)]
public sealed class Alone;
