using System.Net;
using System.Net.Sockets;
using MQTTnet;

namespace CureWatch.Service.Tests.Mqtt;

public sealed class SilentConnectionsTests
{
    [Fact]
    public async Task Silence_OnMoreConnectionsThanThereAre_KeepsNoClientOut()
    {
        const int Many = 90;
        await using BrokerRig rig = await BrokerRig.StartAsync();
        IMqttClient before = await rig.ConnectAsync();
        Socket[] silent = [.. Enumerable.Range(0, Many).Select(_ => new Socket(AddressFamily.InterNetwork, SocketType.Stream, ProtocolType.Tcp))];
        try
        {
            foreach (Socket socket in silent)
            {
                await socket.ConnectAsync(new IPEndPoint(IPAddress.Loopback, rig.Broker.Port), TestContext.Current.CancellationToken);
            }

            await AssertClosedAsync(silent[0]); // room was made at the expense of the oldest
            (IMqttClient after, MqttClientConnectResultCode result) = await rig.TryConnectAsync();
            Assert.Equal(MqttClientConnectResultCode.Success, result);
            await before.PingAsync(TestContext.Current.CancellationToken);
            await after.PingAsync(TestContext.Current.CancellationToken);
        }
        finally
        {
            silent.ToList().ForEach(s => s.Dispose());
        }
    }

    private static async Task AssertClosedAsync(Socket socket)
    {
        try
        {
            Assert.Equal(0, await socket.ReceiveAsync(new byte[1], TestContext.Current.CancellationToken).AsTask().InTimeAsync());
        }
        catch (SocketException e)
        {
            Assert.Equal(SocketError.ConnectionReset, e.SocketErrorCode);
        }
    }
}
