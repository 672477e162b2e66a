using System.Collections.Immutable;
using CureWatch.Service.Mqtt;
using CureWatch.Service.Pump;
using CureWatch.Service.Settings;
using Microsoft.Extensions.Logging.Abstractions;
using MQTTnet;
using MQTTnet.Formatter;
using MQTTnet.Protocol;

namespace CureWatch.Service.Tests.Mqtt;

/// <summary>An embedded broker on a free port, with a stand-in for the pump behind it.</summary>
internal sealed class BrokerRig : IAsyncDisposable
{
    public static readonly LimitSettings Limits = new(PayloadBytes: 4096, Clients: 20, Retained: 3);

    private readonly List<IMqttClient> _clients = [];
    private readonly CatchUp _catchUp;

    private BrokerRig(Func<Arrival, Answer?>? answer, ImmutableArray<MqttUser> users)
    {
        var inbox = new Inbox();
        Pump = new StandInPump(inbox, answer);
        _catchUp = new CatchUp(inbox, TimeProvider.System);
        Broker = new EmbeddedBroker(
            new MqttSettings(0, Listen.Loopback, users, null),
            Limits,
            new TopicDirectory(Registers.Latest()),
            new Reception(inbox, _catchUp, Limits, NullLogger<Reception>.Instance),
            Log);
    }

    public EmbeddedBroker Broker { get; }

    public StandInPump Pump { get; }

    public ToldLog<EmbeddedBroker> Log { get; } = new();

    public MqttClientConnectResult? LastWelcome { get; private set; }

    public static async Task<BrokerRig> StartAsync(Func<Arrival, Answer?>? answer = null, params ImmutableArray<MqttUser> users)
    {
        var rig = new BrokerRig(answer, users);
        await rig.Broker.StartAsync();
        return rig;
    }

    public async Task<(IMqttClient Client, MqttClientConnectResultCode Result)> TryConnectAsync(Action<MqttClientOptionsBuilder>? change = null)
    {
        IMqttClient client = new MqttClientFactory().CreateMqttClient();
        MqttClientOptionsBuilder options = new MqttClientOptionsBuilder()
            .WithTcpServer("127.0.0.1", Broker.Port).WithProtocolVersion(MqttProtocolVersion.V500).WithClientId($"client-{_clients.Count}");
        change?.Invoke(options);
        _clients.Add(client);
        LastWelcome = await client.ConnectAsync(options.Build()).InTimeAsync();
        return (client, LastWelcome.ResultCode);
    }

    public async Task<IMqttClient> ConnectAsync(Action<MqttClientOptionsBuilder>? change = null)
    {
        (IMqttClient client, MqttClientConnectResultCode result) = await TryConnectAsync(change);
        Assert.Equal(MqttClientConnectResultCode.Success, result);
        return client;
    }

    public async ValueTask DisposeAsync()
    {
        foreach (IMqttClient client in _clients)
        {
            client.Dispose();
        }

        await Broker.DisposeAsync();
        await _catchUp.DisposeAsync();
        await Pump.DisposeAsync();
    }
}

/// <summary>Short ways to publish.</summary>
internal static class Publishing
{
    public static Task<MqttClientPublishResult> SendAsync(
        this IMqttClient client, string topic, string payload, int qos = 1, bool retain = false) => client.PublishAsync(
            new MqttApplicationMessageBuilder().WithTopic(topic).WithPayload(payload)
                .WithQualityOfServiceLevel((MqttQualityOfServiceLevel)qos).WithRetainFlag(retain).Build(),
            TestContext.Current.CancellationToken).InTimeAsync();
}
