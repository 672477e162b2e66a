using System.Buffers;
using System.Collections.Concurrent;
using System.Text;
using CureWatch.Service.Journal;
using CureWatch.Service.Pump;
using CureWatch.Service.Settings;
using MQTTnet;
using MQTTnet.Formatter;

namespace CureWatch.Service.Tests.Mqtt;

public class EmbeddedBrokerTests
{
    private const string Timed = """{"at":"2026-03-02T08:00:00Z","temperatureC":20,"humidityPct":50}""";
    private const string Untimed = """{"temperatureC":20,"humidityPct":50}""";

    [Theory]
    [InlineData(MqttProtocolVersion.V500, 0)]
    [InlineData(MqttProtocolVersion.V500, 1)]
    [InlineData(MqttProtocolVersion.V500, 2)]
    [InlineData(MqttProtocolVersion.V311, 1)]
    [InlineData(MqttProtocolVersion.V311, 2)]
    public async Task Reading_OfAnyQuality_ReachesThePump(MqttProtocolVersion version, int qos)
    {
        await using BrokerRig rig = await BrokerRig.StartAsync();
        IMqttClient probe = await rig.ConnectAsync(o => o.WithProtocolVersion(version));

        await probe.SendAsync(Registers.AirTopic, Timed, qos);

        await Eventually.TrueAsync(() => rig.Pump.Readings.Any(), "the reading");
        Assert.Equal(
            [new Entry.Reading("bay-1", "air", new DateTimeOffset(2026, 3, 2, 8, 0, 0, TimeSpan.Zero), 20, 50, null)], rig.Pump.Readings);
    }

    [Theory]
    [InlineData(1)]
    [InlineData(2)]
    public async Task Acknowledgement_WaitsForTheDisk(int qos)
    {
        var held = new ConcurrentQueue<Arrival>();
        await using BrokerRig rig = await BrokerRig.StartAsync(arrival =>
        {
            held.Enqueue(arrival);
            return null;
        });
        IMqttClient probe = await rig.ConnectAsync();

        Task<MqttClientPublishResult>[] sent = [.. Enumerable.Range(0, 10).Select(_ => probe.SendAsync(Registers.AirTopic, Timed, qos))];
        await Eventually.TrueAsync(() => held.Count == 10, "all ten, though none is acknowledged");
        Assert.DoesNotContain(sent, s => s.IsCompleted);
        foreach (Arrival arrival in held)
        {
            arrival.Complete(Answer.Stored.Plain);
        }

        Assert.All(await Task.WhenAll(sent).InTimeAsync(), r => Assert.True(r.IsSuccess));
    }

    [Fact]
    public async Task Reading_ThatCannotBeStored_IsNotAcknowledgedAndEndsTheConnection()
    {
        await using BrokerRig rig = await BrokerRig.StartAsync(_ => new Answer.NotStored("the disk is full"));
        IMqttClient probe = await rig.ConnectAsync();
        var gone = new TaskCompletionSource();
        probe.DisconnectedAsync += _ =>
        {
            gone.TrySetResult();
            return Task.CompletedTask;
        };

        Task<MqttClientPublishResult> sent = probe.SendAsync(Registers.AirTopic, Timed);

        await gone.Task.InTimeAsync();
        await Assert.ThrowsAnyAsync<Exception>(() => sent);
        Assert.True((await rig.ConnectAsync()).IsConnected);
    }

    // While the disk is full each client comes back at once; its log may lie on the same disk.
    [Fact]
    public async Task Client_ThatIsDisconnectedAgainAndAgain_IsToldOfOnce()
    {
        await using BrokerRig rig = await BrokerRig.StartAsync(_ => new Answer.NotStored("the disk is full"));
        for (int i = 0; i < 4; i++)
        {
            IMqttClient probe = await rig.ConnectAsync(o => o.WithClientId("probe"));
            await Assert.ThrowsAnyAsync<Exception>(() => probe.SendAsync(Registers.AirTopic, Timed));
        }

        Assert.Equal(1, rig.Log.Of(2406));
    }

    [Theory]
    [InlineData("", "Malformed bay-1/air")]
    [InlineData("20,5", "Malformed bay-1/air")]
    [InlineData("""{"temperatureC":1e400,"humidityPct":50}""", "Malformed bay-1/air")]
    [InlineData(Untimed, "RetainedWithoutTime bay-1/air", true)]
    public async Task Payload_ThatCannotBeUsed_IsAcknowledgedAndCounted(string payload, string counted, bool retain = false)
    {
        await using BrokerRig rig = await BrokerRig.StartAsync();
        IMqttClient probe = await rig.ConnectAsync();

        await probe.SendAsync(Registers.AirTopic, payload, retain: retain);

        await rig.Pump.RefusesAsync(counted);
        Assert.Empty(rig.Pump.Readings);
    }

    [Fact]
    public async Task Payload_BeyondTheLimit_IsTooLarge()
    {
        await using BrokerRig rig = await BrokerRig.StartAsync();
        IMqttClient probe = await rig.ConnectAsync();

        await probe.SendAsync(Registers.AirTopic, new string(' ', 4096) + Timed);
        await probe.SendAsync($"{Registers.Root}/bay-1/tap", new string(' ', 1_000_000));

        await rig.Pump.RefusesAsync("TooLarge bay-1/air", "TooLarge bay-1/tap");
    }

    [Fact]
    public async Task Probe_NobodySetUp_IsCounted()
    {
        await using BrokerRig rig = await BrokerRig.StartAsync();
        IMqttClient probe = await rig.ConnectAsync();

        MqttClientPublishResult result = await probe.SendAsync($"{Registers.Root}/bay-1/probe/attic", Timed);

        Assert.Equal(MqttClientPublishReasonCode.TopicNameInvalid, result.ReasonCode);
        await rig.Pump.RefusesAsync("UnknownProbe bay-1/attic");
    }

    [Fact]
    public async Task Topic_BehindAnAlias_IsResolved()
    {
        await using BrokerRig rig = await BrokerRig.StartAsync();
        IMqttClient probe = await rig.ConnectAsync();
        MqttApplicationMessageBuilder message = new MqttApplicationMessageBuilder().WithPayload(Timed).WithTopicAlias(1);

        await probe.PublishAsync(message.WithTopic(Registers.AirTopic).Build(), TestContext.Current.CancellationToken);
        await probe.PublishAsync(message.WithTopic("").Build(), TestContext.Current.CancellationToken);

        await Eventually.TrueAsync(() => rig.Pump.Readings.Count() == 2, "both readings");
    }

    [Theory]
    [InlineData("stored")]
    [InlineData("repeated")]
    [InlineData("refused")]
    [InlineData("no such job")]
    public async Task Tap_WhateverBecomesOfIt_IsAcknowledged(string outcome)
    {
        await using BrokerRig rig = await BrokerRig.StartAsync(_ => outcome switch
        {
            "stored" => new Answer.Stored("grey-estate"),
            "repeated" => new Answer.Repeated("grey-estate"),
            "refused" => new Answer.Refused([new Fault("tap", "/did", "\"danced\"", "applied | levelled")]),
            _ => new Answer.NoSuchJob("grey-estate"),
        });
        IMqttClient button = await rig.ConnectAsync();
        const string Tap = """{"job":"grey-estate","at":"2026-03-02T08:00:00Z","did":"levelled"}""";

        Assert.True((await button.SendAsync($"{Registers.Root}/bay-1/tap", Tap, retain: true)).IsSuccess);

        var arrival = Assert.IsType<Arrival.Tap>(Assert.Single(rig.Pump.Taken));
        Assert.Equal((null, Tap), (arrival.Job, Encoding.UTF8.GetString(arrival.Utf8.Span)));
    }

    [Fact]
    public async Task Message_ThatIsTaken_ReachesOtherClients_AndOneThatIsRefusedDoesNot()
    {
        await using BrokerRig rig = await BrokerRig.StartAsync();
        IMqttClient watcher = await rig.ConnectAsync(), probe = await rig.ConnectAsync();
        var seen = new ConcurrentQueue<string>();
        watcher.ApplicationMessageReceivedAsync += e =>
        {
            seen.Enqueue(Encoding.UTF8.GetString(e.ApplicationMessage.Payload.ToArray()));
            return Task.CompletedTask;
        };
        await watcher.SubscribeAsync("#", cancellationToken: TestContext.Current.CancellationToken);

        await probe.SendAsync(Registers.AirTopic, "junk");
        await probe.SendAsync(Registers.AirTopic, Timed);
        await rig.Broker.KeepAsync($"{Registers.Root}/status", "online"u8.ToArray(), TestContext.Current.CancellationToken);

        await Eventually.TrueAsync(() => seen.Count == 2, "what is passed on");
        Assert.Equal([Timed, "online"], seen);
    }
}
