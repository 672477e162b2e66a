using MQTTnet;

namespace CureWatch.Service.Tests.Mqtt;

/// <summary>Of a backlog without times only the newest counts.</summary>
public class BacklogTests
{
    [Fact]
    public async Task Backlog_WithoutTimes_CountsItsNewestOnly_AndAllOfItIsAcknowledged()
    {
        await using BrokerRig rig = await BrokerRig.StartAsync();
        IMqttClient probe = await rig.ConnectAsync();

        MqttClientPublishResult[] sent = await Task.WhenAll(Enumerable.Range(1, 50).Select(i => probe.SendAsync(Registers.AirTopic, Reading(i)))).InTimeAsync();

        Assert.All(sent, r => Assert.True(r.IsSuccess));
        Assert.Equal([50.0], rig.Pump.Readings.Select(r => r.AirC));
        Assert.Equal(Enumerable.Repeat("Late bay-1/air", 49), rig.Pump.Refusals);
    }

    [Fact]
    public async Task Backlog_WithTimes_CountsAllOfIt()
    {
        await using BrokerRig rig = await BrokerRig.StartAsync();
        IMqttClient probe = await rig.ConnectAsync();

        await Task.WhenAll(Enumerable.Range(1, 20).Select(i => probe.SendAsync(
            Registers.AirTopic, $$"""{"at":"2026-03-02T08:00:{{i:00}}Z","temperatureC":20,"humidityPct":50}""")));

        Assert.Equal(20, rig.Pump.Readings.Count());
    }

    [Fact]
    public async Task Backlog_OfSeveralProbes_CountsTheNewestOfEach()
    {
        await using BrokerRig rig = await BrokerRig.StartAsync();
        IMqttClient gateway = await rig.ConnectAsync();
        string other = Registers.AirTopic.Replace("bay-1", "bay-2", StringComparison.Ordinal);

        await Task.WhenAll(Enumerable.Range(1, 20).Select(i => gateway.SendAsync(i % 2 == 0 ? Registers.AirTopic : other, Reading(i))));

        Assert.Equal([("bay-1", 20), ("bay-2", 19)], rig.Pump.Readings.Select(r => (r.Bay, (int)r.AirC!)).Order());
    }

    [Fact]
    public async Task Readings_AfterTheFirstQuiet_GoOnAtOnce()
    {
        await using BrokerRig rig = await BrokerRig.StartAsync();
        IMqttClient probe = await rig.ConnectAsync();
        await probe.SendAsync(Registers.AirTopic, Reading(1));

        await Task.WhenAll(Enumerable.Range(2, 9).Select(i => probe.SendAsync(Registers.AirTopic, Reading(i))));

        Assert.Equal(Enumerable.Range(1, 10), rig.Pump.Readings.Select(r => (int)r.AirC!));
    }

    [Fact]
    public async Task Reading_OfAProbeThatLeavesAtOnce_IsTakenAllTheSame()
    {
        await using BrokerRig rig = await BrokerRig.StartAsync();
        IMqttClient probe = await rig.ConnectAsync();

        await probe.SendAsync(Registers.AirTopic, Reading(1), qos: 0);
        await probe.DisconnectAsync(cancellationToken: TestContext.Current.CancellationToken);

        await Eventually.TrueAsync(() => rig.Pump.Readings.Any(), "the reading");
    }

    private static string Reading(int airC) => $$"""{"temperatureC":{{airC}},"humidityPct":50}""";
}
