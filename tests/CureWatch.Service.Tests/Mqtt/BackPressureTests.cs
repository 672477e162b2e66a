using System.Text;
using CureWatch.Service.Mqtt;
using CureWatch.Service.Pump;
using MQTTnet;

namespace CureWatch.Service.Tests.Mqtt;

/// <summary>A disk that stands still, and senders that do not.</summary>
public sealed class BackPressureTests : IDisposable
{
    private readonly ManualResetEventSlim _disk = new();

    public void Dispose() => _disk.Dispose();

    [Fact]
    public async Task Flood_WhileTheDiskStandsStill_IsHeldBackAndThenStored()
    {
        const int Clients = 6, Each = 4_000;
        await using BrokerRig rig = await BrokerRig.StartAsync(Stalled);
        var sent = new List<Task<MqttClientPublishResult>>();
        for (int i = 0; i < Clients; i++)
        {
            IMqttClient client = await rig.ConnectAsync();
            string topic = i % 2 == 0 ? Registers.AirTopic : Registers.AirTopic.Replace("bay-1", "bay-2", StringComparison.Ordinal);
            sent.AddRange(Enumerable.Range(0, Each).Select(n => client.PublishAsync(Message(topic, n), TestContext.Current.CancellationToken)));
        }

        await Eventually.TrueAsync(() => rig.Pump.Inbox.Count == 2 * Inbox.MostInLane, "two full lanes");
        Assert.DoesNotContain(sent, s => s.IsCompletedSuccessfully);
        Assert.Equal(2 * Inbox.MostInLane, rig.Pump.Inbox.Count);

        _disk.Set();
        Assert.All(await Task.WhenAll(sent).InTimeAsync(), r => Assert.True(r.IsSuccess));
        Assert.Equal(Clients * Each, rig.Pump.Readings.Count());
    }

    [Fact]
    public async Task Client_ThatFloodsOnOneLane_LeavesTheOthersAlone()
    {
        await using BrokerRig rig = await BrokerRig.StartAsync(Stalled);
        IMqttClient wild = await rig.ConnectAsync(), quiet = await rig.ConnectAsync();
        Task[] flood = [.. Enumerable.Range(0, 10_000).Select(n => wild.PublishAsync(Message(Registers.AirTopic, n), TestContext.Current.CancellationToken))];
        await Eventually.TrueAsync(() => rig.Pump.Inbox.Count == Inbox.MostInLane, "a full lane");

        Task sent = quiet.PublishAsync(Message(Registers.AirTopic.Replace("bay-1", "bay-2", StringComparison.Ordinal), 0), TestContext.Current.CancellationToken);
        await Eventually.TrueAsync(() => rig.Pump.Inbox.Count == Inbox.MostInLane + 1, "the quiet one beside it");

        _disk.Set();
        await sent.InTimeAsync();
        await Task.WhenAll(flood).InTimeAsync();
    }

    [Theory]
    [InlineData(0)]
    [InlineData(1)]
    public async Task Flood_OfAnExternalBroker_IsReadNoFurtherThanItMayBe(int qos)
    {
        const int Sent = 6_000;
        await using Mosquitto broker = await Mosquitto.StartAsync();
        await using LinkRig rig = await LinkRig.ConnectAsync(LinkRig.At(broker.Port), Stalled);
        using IMqttClient sender = new MqttClientFactory().CreateMqttClient();
        await sender.ConnectAsync(new MqttClientOptionsBuilder().WithTcpServer("127.0.0.1", broker.Port).Build(), TestContext.Current.CancellationToken);
        for (int n = 0; n < Sent; n++)
        {
            await sender.SendAsync(Registers.AirTopic, Payload(n), qos);
        }

        await Eventually.TrueAsync(() => rig.Pump.Inbox.Count >= 1_000, "what may wait");
        Assert.InRange(rig.Pump.Inbox.Count, 0, Inbox.MostInLane);
        _disk.Set();
        await Eventually.TrueAsync(() => rig.Pump.Readings.Count() >= 1_999, "it to go on");
        if (qos > 0)
        {
            await Eventually.TrueAsync(() => rig.Pump.Readings.Select(r => r.AirC).Distinct().Count() == Sent, "every one of them");
        }
    }

    [Fact]
    public async Task ReadAhead_BeyondItsBound_WaitsUntilEnoughIsDealtWith()
    {
        var ahead = new ReadAhead();
        MqttApplicationMessage large = new MqttApplicationMessageBuilder().WithTopic("t").WithPayload(new byte[1 << 20]).Build();
        int read = 0;
        Task waits = Task.CompletedTask;
        while (waits.IsCompleted)
        {
            waits = ahead.AddAsync(large.Payload.Length, TestContext.Current.CancellationToken);
            read++;
        }

        Assert.Equal(16, read);
        ahead.Remove(large);
        await waits.InTimeAsync();
        for (; read > 1; read--)
        {
            ahead.Remove(large);
        }

        Assert.Equal(0, ahead.Bytes);
    }

    private static MqttApplicationMessage Message(string topic, int number) => new MqttApplicationMessageBuilder()
        .WithTopic(topic).WithPayload(Encoding.UTF8.GetBytes(Payload(number))).WithQualityOfServiceLevel(MQTTnet.Protocol.MqttQualityOfServiceLevel.AtLeastOnce).Build();

    private static string Payload(int number) => $$"""{"at":"2026-03-02T08:00:00Z","temperatureC":{{number}},"humidityPct":50}""";

    private Answer Stalled(Arrival arrival)
    {
        _disk.Wait(TestContext.Current.CancellationToken);
        return Answer.Stored.Plain;
    }
}
