using CureWatch.Service.Pump;
using CureWatch.Service.Settings;
using MQTTnet;
using MQTTnet.Formatter;

namespace CureWatch.Service.Tests.Mqtt;

public class RightsTests
{
    private const string Timed = """{"at":"2026-03-02T08:00:00Z","temperatureC":20,"humidityPct":50}""";
    private const string Tap = $"{Registers.Root}/bay-1/tap";

    private static readonly MqttUser Probe = new("air-1", "secret", MqttRole.Probe, [new OwnProbe("bay-1", "air")]);
    private static readonly MqttUser Gateway = new("gateway", "third", MqttRole.Probe, [new OwnProbe("bay-1", "bonnet"), new OwnProbe("bay-2", "air")]);
    private static readonly MqttUser Client = new("tablet", "other", MqttRole.Client, []);

    public static TheoryData<string> NobodysTopics { get; } =
    [
        $"{Registers.Root}/status", $"{Registers.Root}/bay-1/climate", $"{Registers.Root}/bay-1/warnings/3", $"{Registers.Root}/jobs/grey-estate/windows",
        $"{Registers.Root}/jobs/grey-estate/handover", "$SYS/broker/uptime", "anything/else", "curewatch/v1/other-shop/bay-1/probe/air",
    ];

    [Theory]
    [MemberData(nameof(NobodysTopics))]
    public async Task Topic_ThatIsNobodys_IsRefusedEverybody_AndCounted(string topic)
    {
        await using BrokerRig rig = await BrokerRig.StartAsync();
        IMqttClient guest = await rig.ConnectAsync();

        Assert.Equal(MqttClientPublishReasonCode.NotAuthorized, (await guest.SendAsync(topic, "offline", retain: true)).ReasonCode);
        await rig.Pump.RefusesAsync($"UnknownProbe {topic}");
        Assert.Empty(rig.Pump.Readings);
    }

    [Fact]
    public async Task Will_OnAnOutputTopic_IsNotPublished_AndOneOnAProbesIsTaken()
    {
        await using BrokerRig rig = await BrokerRig.StartAsync();
        IMqttClient watcher = await rig.ConnectAsync();
        var seen = new List<string>();
        watcher.ApplicationMessageReceivedAsync += e =>
        {
            seen.Add(e.ApplicationMessage.Topic);
            return Task.CompletedTask;
        };
        await watcher.SubscribeAsync("#", cancellationToken: TestContext.Current.CancellationToken);

        foreach (string topic in new[] { $"{Registers.Root}/status", Registers.AirTopic })
        {
            IMqttClient leaving = await rig.ConnectAsync(o => o.WithWillTopic(topic).WithWillPayload(Timed).WithWillRetain());
            leaving.Dispose();
        }

        await Eventually.TrueAsync(() => seen.Count > 0, "the will on the probe's topic");
        Assert.Equal([Registers.AirTopic], seen);
        await Eventually.TrueAsync(() => rig.Pump.Readings.Any(), "the will before the pump");
        Assert.Single(rig.Pump.Readings);
    }

    [Theory]
    [InlineData("air-1", "secret", MqttClientConnectResultCode.Success)]
    [InlineData("air-1", "Secret", MqttClientConnectResultCode.BadUserNameOrPassword)]
    [InlineData("air-1", "", MqttClientConnectResultCode.BadUserNameOrPassword)]
    [InlineData("nobody", "secret", MqttClientConnectResultCode.BadUserNameOrPassword)]
    public async Task User_NeedsTheRightPassword(string user, string password, MqttClientConnectResultCode expected)
    {
        await using BrokerRig rig = await BrokerRig.StartAsync(null, Probe, Client);
        Assert.Equal(expected, (await rig.TryConnectAsync(o => o.WithCredentials(user, password))).Result);
    }

    [Fact]
    public async Task Stranger_WithoutCredentials_IsRefusedWhereUsersAreSetUp()
    {
        await using BrokerRig rig = await BrokerRig.StartAsync(null, Probe);
        Assert.Equal(MqttClientConnectResultCode.BadUserNameOrPassword, (await rig.TryConnectAsync()).Result);
    }

    [Fact]
    public async Task Client_WithoutAnId_IsNamedIfItsVersionKnowsHow()
    {
        await using BrokerRig rig = await BrokerRig.StartAsync();
        IMqttClient first = await rig.ConnectAsync(o => o.WithClientId("")), second = await rig.ConnectAsync(o => o.WithClientId(""));
        await first.SendAsync(Registers.AirTopic, Timed);
        await second.SendAsync(Registers.AirTopic, Timed);
        Assert.Equal(2, rig.Pump.Readings.Count());

        Assert.Equal(
            MqttClientConnectResultCode.ClientIdentifierNotValid,
            (await rig.TryConnectAsync(o => o.WithProtocolVersion(MqttProtocolVersion.V311).WithClientId("").WithCleanStart())).Result);
    }

    [Theory]
    [InlineData("air-1", "secret", Registers.AirTopic, true)]
    [InlineData("air-1", "secret", $"{Registers.Root}/bay-2/probe/air", false)]
    [InlineData("air-1", "secret", $"{Registers.Root}/bay-1/probe/attic", false)]
    [InlineData("air-1", "secret", Tap, false)]
    [InlineData("gateway", "third", $"{Registers.Root}/bay-1/probe/bonnet", true)]
    [InlineData("gateway", "third", $"{Registers.Root}/bay-2/probe/air", true)]
    [InlineData("gateway", "third", Registers.AirTopic, false)]
    [InlineData("gateway", "third", $"{Registers.Root}/bay-2/probe/bonnet", false)]
    [InlineData("tablet", "other", Registers.AirTopic, false)]
    [InlineData("tablet", "other", Tap, true)]
    [InlineData("tablet", "other", $"{Registers.Root}/status", false)]
    public async Task User_PublishesOwnTopicsOnly(string user, string password, string topic, bool isAllowed)
    {
        await using BrokerRig rig = await BrokerRig.StartAsync(null, Probe, Client, Gateway);
        IMqttClient client = await rig.ConnectAsync(o => o.WithCredentials(user, password));

        MqttClientPublishResult result = await client.SendAsync(topic, Timed);

        Assert.Equal(isAllowed, result.ReasonCode != MqttClientPublishReasonCode.NotAuthorized);
        Assert.Equal(isAllowed ? 1 : 0, rig.Pump.Taken.Count(a => a is not Arrival.Refusal));
    }

    [Fact]
    public async Task Reading_OfAProbeThatIsNotTheSenders_IsCountedAtTheProbe()
    {
        await using BrokerRig rig = await BrokerRig.StartAsync(null, Probe, Client);
        IMqttClient probe = await rig.ConnectAsync(o => o.WithCredentials("air-1", "secret"));
        await probe.SendAsync($"{Registers.Root}/bay-2/probe/air", Timed);
        await probe.SendAsync($"{Registers.Root}/bay-2/probe/attic", Timed);

        await rig.Pump.RefusesAsync("NotItsSender bay-2/air", "UnknownProbe bay-2/attic");
        Assert.Empty(rig.Pump.Readings);
    }

    [Theory]
    [InlineData("air-1", "secret", MqttClientSubscribeResultCode.NotAuthorized)]
    [InlineData("tablet", "other", MqttClientSubscribeResultCode.GrantedQoS0)]
    public async Task User_SubscribesIfItIsAClient(string user, string password, MqttClientSubscribeResultCode expected)
    {
        await using BrokerRig rig = await BrokerRig.StartAsync(null, Probe, Client);
        IMqttClient client = await rig.ConnectAsync(o => o.WithCredentials(user, password));
        MqttClientSubscribeResult result = await client.SubscribeAsync("#", cancellationToken: TestContext.Current.CancellationToken);
        Assert.Equal(expected, Assert.Single(result.Items).ResultCode);
    }

    [Fact]
    public async Task ClientId_OfAnotherUser_CannotBeTakenOver()
    {
        await using BrokerRig rig = await BrokerRig.StartAsync(null, Probe, Client);
        IMqttClient tablet = await rig.ConnectAsync(o => o.WithCredentials("tablet", "other").WithClientId("tablet"));

        Assert.Equal(
            MqttClientConnectResultCode.ClientIdentifierNotValid,
            (await rig.TryConnectAsync(o => o.WithCredentials("air-1", "secret").WithClientId("tablet").WithCleanStart(false))).Result);
        Assert.True(tablet.IsConnected);
    }

    [Fact]
    public async Task Client_BeyondTheLimit_IsRefused_ButOneMayComeBack()
    {
        await using BrokerRig rig = await BrokerRig.StartAsync();
        for (int i = 0; i < BrokerRig.Limits.Clients; i++)
        {
            await rig.ConnectAsync();
        }

        Assert.Equal(MqttClientConnectResultCode.ServerBusy, (await rig.TryConnectAsync()).Result);
        Assert.Equal(MqttClientConnectResultCode.Success, (await rig.TryConnectAsync(o => o.WithClientId("client-3"))).Result);
    }

    [Fact]
    public async Task Message_BeyondTheLimitOfKeptOnes_IsTakenButNotKept()
    {
        await using BrokerRig rig = await BrokerRig.StartAsync();
        IMqttClient gateway = await rig.ConnectAsync(), late = await rig.ConnectAsync();
        foreach (string probe in new[] { "bay-1/probe/air", "bay-1/probe/bonnet", "bay-1/probe/screen", "bay-2/probe/air" })
        {
            await gateway.SendAsync($"{Registers.Root}/{probe}", Timed, retain: true);
        }

        var seen = new List<string>();
        late.ApplicationMessageReceivedAsync += e =>
        {
            seen.Add(e.ApplicationMessage.Topic);
            return Task.CompletedTask;
        };
        await late.SubscribeAsync("#", cancellationToken: TestContext.Current.CancellationToken);
        await gateway.SendAsync($"{Registers.Root}/bay-2/probe/air", Timed);

        await Eventually.TrueAsync(() => seen.Count == 4, "three kept messages and a live one");
        Assert.Equal(5, rig.Pump.Readings.Count());
    }
}
