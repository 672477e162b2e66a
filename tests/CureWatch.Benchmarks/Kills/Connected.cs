using MQTTnet;
using MQTTnet.Formatter;
using MQTTnet.Protocol;

namespace CureWatch.Benchmarks.Kills;

/// <summary>A client on the broker for as long as the program lives.</summary>
internal sealed class Connected : IDisposable
{
    private readonly IMqttClient _client = new MqttClientFactory().CreateMqttClient();

    private Connected()
    {
    }

    public static async Task<Connected> ToAsync(int port, string id, CancellationToken cancelled, Action<MqttApplicationMessage>? hear = null)
    {
        var connected = new Connected();
        if (hear is not null)
        {
            connected._client.ApplicationMessageReceivedAsync += e =>
            {
                hear(e.ApplicationMessage);
                return Task.CompletedTask;
            };
        }

        await connected._client.ConnectAsync(
            new MqttClientOptionsBuilder().WithTcpServer("127.0.0.1", port).WithClientId(id).WithProtocolVersion(MqttProtocolVersion.V500).Build(),
            cancelled);
        return connected;
    }

    public Task SubscribeAsync(string filter, CancellationToken cancelled) =>
        _client.SubscribeAsync(filter, MqttQualityOfServiceLevel.AtLeastOnce, cancelled);

    /// <summary>Publishes with QoS 1, and enters the acknowledgement once it is here.</summary>
    public async Task PublishAsync(Letter letter, Ledger ledger, CancellationToken cancelled)
    {
        ledger.Sending(letter.Key);
        MqttClientPublishResult result = await _client.PublishStringAsync(
            letter.Where, letter.Payload, MqttQualityOfServiceLevel.AtLeastOnce, retain: false, cancelled);
        if (result.IsSuccess)
        {
            ledger.Acknowledge(letter.Key);
        }
        else
        {
            ledger.Refused.Enqueue($"{letter.Where}: {result.ReasonCode} {result.ReasonString}");
        }
    }

    public void Dispose() => _client.Dispose();
}

/// <summary>Something to be told until it is acknowledged.</summary>
/// <param name="Key">What names it in the journal.</param>
/// <param name="Where">The topic or the path it goes to.</param>
/// <param name="Payload">What it says.</param>
internal sealed record Letter(string Key, string Where, string Payload);
