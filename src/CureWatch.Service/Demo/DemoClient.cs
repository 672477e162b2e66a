using MQTTnet;
using MQTTnet.Formatter;
using MQTTnet.Protocol;

namespace CureWatch.Service.Demo;

/// <summary>A connection of the demo's to the broker: a probe's, or a push-button's.</summary>
internal sealed class DemoClient : IAsyncDisposable
{
    private readonly IMqttClient _client = new MqttClientFactory().CreateMqttClient();

    private DemoClient()
    {
    }

    public static async Task<DemoClient> ConnectAsync(
        string id, int port, Action<MqttApplicationMessage>? hear, CancellationToken cancelled)
    {
        var connected = new DemoClient();
        if (hear is not null)
        {
            connected._client.ApplicationMessageReceivedAsync += e =>
            {
                hear(e.ApplicationMessage);
                return Task.CompletedTask;
            };
        }

        MqttClientOptions options = new MqttClientOptionsBuilder()
            .WithTcpServer("127.0.0.1", port).WithClientId(id).WithProtocolVersion(MqttProtocolVersion.V500).Build();
        MqttClientConnectResult result = await connected._client.ConnectAsync(options, cancelled).ConfigureAwait(false);
        return result.ResultCode == MqttClientConnectResultCode.Success
            ? connected
            : throw new IOException($"The broker refused the demo's client {id}: {result.ResultCode} {result.ReasonString}.");
    }

    public Task SubscribeAsync(string filter, CancellationToken cancelled) =>
        _client.SubscribeAsync(filter, MqttQualityOfServiceLevel.AtLeastOnce, cancelled);

    /// <summary>Publishes, and returns once the broker has acknowledged.</summary>
    /// <returns>Why it was refused; null where it was not.</returns>
    public async Task<string?> PublishAsync(string topic, string payload, CancellationToken cancelled)
    {
        MqttClientPublishResult result = await _client.PublishStringAsync(
            topic, payload, MqttQualityOfServiceLevel.AtLeastOnce, retain: false, cancelled).ConfigureAwait(false);
        return result.IsSuccess ? null : $"{result.ReasonCode} {result.ReasonString}";
    }

    public async ValueTask DisposeAsync()
    {
        _ = await _client.TryDisconnectAsync().ConfigureAwait(false);
        _client.Dispose();
    }
}
