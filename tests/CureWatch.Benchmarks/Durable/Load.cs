using System.Globalization;
using MQTTnet;
using MQTTnet.Formatter;
using MQTTnet.Protocol;

namespace CureWatch.Benchmarks.Durable;

/// <summary>Twenty probes that publish with forty messages in flight each, as fast as they are acknowledged.</summary>
internal static class Load
{
    public const int Connections = 20;
    public const int InFlight = 40;

    /// <returns>Acknowledged messages a second.</returns>
    public static async Task<double> RunAsync(int port, int messagesPerConnection, DateTimeOffset first)
    {
        var clients = new List<IMqttClient>();
        for (int i = 0; i < Connections; i++)
        {
            IMqttClient client = new MqttClientFactory().CreateMqttClient();
            await client.ConnectAsync(new MqttClientOptionsBuilder()
                .WithTcpServer("127.0.0.1", port).WithClientId($"probe-{i}").WithProtocolVersion(MqttProtocolVersion.V500).Build());
            clients.Add(client);
        }

        long started = TimeProvider.System.GetTimestamp();
        await Task.WhenAll(clients.Select((c, i) => PublishAsync(c, i, messagesPerConnection, first)));
        double seconds = TimeProvider.System.GetElapsedTime(started).TotalSeconds;
        foreach (IMqttClient client in clients)
        {
            await client.DisconnectAsync();
            client.Dispose();
        }

        return Connections * messagesPerConnection / seconds;
    }

    private static async Task PublishAsync(IMqttClient client, int connection, int count, DateTimeOffset first)
    {
        string topic = DurableShop.TopicOf(connection);
        using var slots = new SemaphoreSlim(InFlight);
        var sent = new List<Task>(count);
        for (int i = 0; i < count; i++)
        {
            await slots.WaitAsync();
            sent.Add(SendAsync(i));
        }

        await Task.WhenAll(sent);

        async Task SendAsync(int i)
        {
            string at = first.AddMilliseconds(i).ToString("yyyy-MM-dd'T'HH:mm:ss.fff'Z'", CultureInfo.InvariantCulture);
            string payload = $$"""{"at":"{{at}}","temperatureC":{{20 + (i % 50 * 0.01):0.00}},"humidityPct":{{50 + (i % 30 * 0.1):0.0}}}""";
            MqttClientPublishResult result = await client.PublishStringAsync(topic, payload, MqttQualityOfServiceLevel.AtLeastOnce);
            slots.Release();
            if (!result.IsSuccess)
            {
                throw new IOException($"refused: {result.ReasonCode}");
            }
        }
    }
}
