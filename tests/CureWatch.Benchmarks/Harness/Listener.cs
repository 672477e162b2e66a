using MQTTnet;
using MQTTnet.Formatter;
using MQTTnet.Protocol;

namespace CureWatch.Benchmarks.Harness;

/// <summary>Somebody who subscribed to all outputs.</summary>
internal sealed class Listener : IDisposable
{
    private readonly IMqttClient _client = new MqttClientFactory().CreateMqttClient();
    private int _heard;

    private Listener()
    {
    }

    public int Heard => _heard;

    public static async Task<Listener> AtAsync(int port, Action<MqttApplicationMessage>? hear = null)
    {
        var listener = new Listener();
        listener._client.ApplicationMessageReceivedAsync += e =>
        {
            Interlocked.Increment(ref listener._heard);
            hear?.Invoke(e.ApplicationMessage);
            return Task.CompletedTask;
        };
        await listener._client.ConnectAsync(new MqttClientOptionsBuilder()
            .WithTcpServer("127.0.0.1", port).WithClientId("listener").WithProtocolVersion(MqttProtocolVersion.V500).Build());
        var filters = new MqttClientSubscribeOptionsBuilder();
        foreach (string filter in LoadShop.Outputs)
        {
            _ = filters.WithTopicFilter(filter, MqttQualityOfServiceLevel.AtMostOnce);
        }

        await listener._client.SubscribeAsync(filters.Build());
        return listener;
    }

    public void Dispose() => _client.Dispose();
}
