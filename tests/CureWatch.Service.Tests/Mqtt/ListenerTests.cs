using System.Net;
using System.Net.Sockets;
using CureWatch.Service.Mqtt;
using CureWatch.Service.Pump;
using CureWatch.Service.Settings;
using Microsoft.Extensions.Logging.Abstractions;
using MQTTnet;

namespace CureWatch.Service.Tests.Mqtt;

public class ListenerTests
{
    private const string Timed = """{"at":"2026-03-02T08:00:00Z","temperatureC":20,"humidityPct":50}""";

    [Fact]
    public async Task Broker_OnLoopback_AnswersUnderBothFamilies()
    {
        await using BrokerRig rig = await BrokerRig.StartAsync();
        Assert.InRange(rig.Broker.Port, 1, 65_535);
        await rig.ConnectAsync(o => o.WithTcpServer("127.0.0.1", rig.Broker.Port));
        if (Socket.OSSupportsIPv6)
        {
            await rig.ConnectAsync(o => o.WithTcpServer("::1", rig.Broker.Port));
        }
    }

    [Fact]
    public async Task Port_InUse_IsToldInOneLine()
    {
        using var taken = new TcpListener(IPAddress.Loopback, 0);
        taken.Start();
        int port = ((IPEndPoint)taken.LocalEndpoint).Port;
        var inbox = new Inbox();
        var reception = new Reception(inbox, new CatchUp(inbox, TimeProvider.System), BrokerRig.Limits, NullLogger<Reception>.Instance);
        await using var broker = new EmbeddedBroker(
            new MqttSettings(port, Listen.Loopback, [], null),
            BrokerRig.Limits,
            new TopicDirectory(Registers.Latest()),
            reception,
            NullLogger<EmbeddedBroker>.Instance);

        IOException refused = await Assert.ThrowsAsync<IOException>(broker.StartAsync);

        Assert.Contains($"port {port}", refused.Message, StringComparison.Ordinal);
        Assert.DoesNotContain('\n', refused.Message);
        await broker.StopAsync();
        await Assert.ThrowsAsync<IOException>(() => broker.KeepAsync($"{Registers.Root}/status", default, TestContext.Current.CancellationToken));
    }

    [Fact]
    public async Task Packet_LongerThanAny_IsNotRead_AndItsSenderIsDisconnected()
    {
        await using BrokerRig rig = await BrokerRig.StartAsync();
        IMqttClient probe = await rig.ConnectAsync();
        using var huge = new TcpClient();
        await huge.ConnectAsync(IPAddress.Loopback, rig.Broker.Port, TestContext.Current.CancellationToken);
        NetworkStream stream = huge.GetStream();

        await stream.WriteAsync(new byte[] { 0x10, 0xFF, 0xFF, 0xFF, 0x7F }, TestContext.Current.CancellationToken);

        await IsClosedAsync(stream);
        await rig.Pump.RefusesAsync("TooLarge unread");
        Assert.Equal((uint)BrokerRig.Limits.LargestPacketBytes, rig.LastWelcome!.MaximumPacketSize);
        await probe.SendAsync(Registers.AirTopic, Timed);
        Assert.Single(rig.Pump.Readings);
    }

    [Fact]
    public async Task Connection_ThatSpeaksAnotherLanguage_IsClosed()
    {
        await using BrokerRig rig = await BrokerRig.StartAsync();
        using var stranger = new TcpClient();
        await stranger.ConnectAsync(IPAddress.Loopback, rig.Broker.Port, TestContext.Current.CancellationToken);

        await stranger.GetStream().WriteAsync("GET /a/page/that/this/broker/does/not/have/and/that/nobody/asks/a/broker/for HTTP/1.1\r\nHost: bay\r\n\r\n"u8.ToArray(), TestContext.Current.CancellationToken);

        await IsClosedAsync(stranger.GetStream());
        Assert.True((await rig.ConnectAsync()).IsConnected);
    }

    /// <summary>Ended properly, or reset where something was sent that nobody read.</summary>
    private static async Task IsClosedAsync(NetworkStream stream)
    {
        try
        {
            Assert.Equal(0, await stream.ReadAsync(new byte[1], TestContext.Current.CancellationToken).AsTask().InTimeAsync());
        }
        catch (IOException e) when (e.InnerException is SocketException { SocketErrorCode: SocketError.ConnectionReset })
        {
            // Ended all the same.
        }
    }
}
