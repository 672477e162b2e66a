using System.Buffers;
using System.Collections.Concurrent;
using System.Text;
using MQTTnet;
using MQTTnet.Protocol;

namespace CureWatch.Service.Tests.Mqtt;

/// <summary>A client that subscribes to everything, and remembers what it saw.</summary>
internal sealed class Watcher : IAsyncDisposable
{
    private readonly IMqttClient _client = new MqttClientFactory().CreateMqttClient();
    private readonly ConcurrentDictionary<string, string> _newest = new(StringComparer.Ordinal);
    private readonly ConcurrentQueue<(string Topic, string Payload, bool IsKept)> _seen = new();

    private Watcher()
    {
    }

    public IMqttClient Client => _client;

    public IEnumerable<(string Topic, string Payload, bool IsKept)> Seen => _seen;

    public static async Task<Watcher> ConnectAsync(int port, string id = "watcher", string filter = "#")
    {
        var watcher = new Watcher();
        watcher._client.ApplicationMessageReceivedAsync += e =>
        {
            string payload = Encoding.UTF8.GetString(e.ApplicationMessage.Payload.ToArray());
            watcher._seen.Enqueue((e.ApplicationMessage.Topic, payload, e.ApplicationMessage.Retain));
            watcher._newest[e.ApplicationMessage.Topic] = payload;
            return Task.CompletedTask;
        };
        await watcher._client.ConnectAsync(
            new MqttClientOptionsBuilder().WithTcpServer("127.0.0.1", port).WithClientId(id).Build(), TestContext.Current.CancellationToken).InTimeAsync();
        await watcher._client.SubscribeAsync(
            new MqttClientSubscribeOptionsBuilder().WithTopicFilter(filter, MqttQualityOfServiceLevel.AtLeastOnce).Build(),
            TestContext.Current.CancellationToken).InTimeAsync();
        return watcher;
    }

    /// <summary>What stands on a topic; empty where nothing does.</summary>
    public string On(string topic) => _newest.GetValueOrDefault(topic, "");

    public int CountOn(string topic) => _seen.Count(s => s.Topic == topic);

    public Task SeesAsync(string topic, Predicate<string> holds) => Eventually.TrueAsync(() => holds(On(topic)), $"{topic}, which is '{On(topic)}'");

    public ValueTask DisposeAsync()
    {
        _client.Dispose();
        return ValueTask.CompletedTask;
    }
}
