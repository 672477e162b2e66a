using System.Buffers;
using System.Text;
using CureWatch.Service.Pump;
using MQTTnet;
using MQTTnet.Formatter;
using MQTTnet.LowLevelClient;
using MQTTnet.Packets;
using MQTTnet.Protocol;

namespace CureWatch.Service.Tests.Mqtt;

/// <summary>A message of quality 2 that is sent again (MQTT 5, section 4.3.3): a tap without an id must not count twice.</summary>
public class ExactlyOnceTests
{
    private const ushort Packet = 7;

    [Fact]
    public async Task Tap_SentAgainBeforeItsRelease_IsTheSameTap()
    {
        await using BrokerRig rig = await BrokerRig.StartAsync();
        using ILowLevelMqttClient button = await ConnectAsync(rig);
        await SendAsync(button, isAgain: false);
        await SendAsync(button, isAgain: true);
        Assert.Single(rig.Pump.Taken);

        await ReleaseAsync(button);
        await SendAsync(button, isAgain: false);
        Assert.Equal(2, rig.Pump.Taken.Count());
    }

    [Fact]
    public async Task Tap_ThatWasNotStored_IsTakenWhenItComesAgain()
    {
        int asked = 0;
        await using BrokerRig rig = await BrokerRig.StartAsync(_ => asked++ == 0 ? new Answer.NotStored("the disk is full") : Answer.Stored.Plain);
        using (ILowLevelMqttClient button = await ConnectAsync(rig))
        {
            await Assert.ThrowsAnyAsync<Exception>(() => SendAsync(button, isAgain: false));
        }

        using ILowLevelMqttClient again = await ConnectAsync(rig);
        await SendAsync(again, isAgain: true);
        Assert.Equal(2, rig.Pump.Taken.Count());
    }

    private static async Task<ILowLevelMqttClient> ConnectAsync(BrokerRig rig)
    {
        CancellationToken token = TestContext.Current.CancellationToken;
        ILowLevelMqttClient client = new MqttClientFactory().CreateLowLevelMqttClient();
        await client.ConnectAsync(
            new MqttClientOptionsBuilder().WithTcpServer("127.0.0.1", rig.Broker.Port).WithProtocolVersion(MqttProtocolVersion.V311).Build(), token);
        await client.SendAsync(new MqttConnectPacket { ClientId = "button", CleanSession = false }, token);
        Assert.IsType<MqttConnAckPacket>(await client.ReceiveAsync(token).InTimeAsync());
        return client;
    }

    private static async Task SendAsync(ILowLevelMqttClient client, bool isAgain)
    {
        CancellationToken token = TestContext.Current.CancellationToken;
        await client.SendAsync(
            new MqttPublishPacket
            {
                Topic = $"{Registers.Root}/bay-1/tap",
                PacketIdentifier = Packet,
                QualityOfServiceLevel = MqttQualityOfServiceLevel.ExactlyOnce,
                Dup = isAgain,
                Payload = new ReadOnlySequence<byte>(Encoding.UTF8.GetBytes("""{"job":"job-1","at":"2026-03-02T08:00:00Z","did":"washed"}""")),
            },
            token);
        Assert.Equal(Packet, Assert.IsType<MqttPubRecPacket>(await client.ReceiveAsync(token).InTimeAsync()).PacketIdentifier);
    }

    private static async Task ReleaseAsync(ILowLevelMqttClient client)
    {
        CancellationToken token = TestContext.Current.CancellationToken;
        await client.SendAsync(new MqttPubRelPacket { PacketIdentifier = Packet }, token);
        Assert.IsType<MqttPubCompPacket>(await client.ReceiveAsync(token).InTimeAsync());
    }
}
