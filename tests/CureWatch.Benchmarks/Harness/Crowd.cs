using System.Globalization;
using MQTTnet;
using MQTTnet.Formatter;
using MQTTnet.Protocol;

namespace CureWatch.Benchmarks.Harness;

/// <summary>The connections of a shop's probes, each of which speaks for every so many of them.</summary>
internal sealed class Crowd : IDisposable
{
    private readonly IMqttClient[] _clients;
    private readonly string[] _topics;
    private readonly int[] _sent;

    private Crowd(IMqttClient[] clients, string[] topics) => (_clients, _topics, _sent) = (clients, topics, new int[clients.Length]);

    public int Connections => _clients.Length;

    public int Probes => _topics.Length;

    public static async Task<Crowd> ConnectAsync(int port, LoadShop shop, int connections)
    {
        var clients = new IMqttClient[connections];
        for (int i = 0; i < connections; i++)
        {
            clients[i] = new MqttClientFactory().CreateMqttClient();
            await clients[i].ConnectAsync(new MqttClientOptionsBuilder()
                .WithTcpServer("127.0.0.1", port).WithClientId($"probes-{i}").WithProtocolVersion(MqttProtocolVersion.V500).Build());
        }

        return new Crowd(clients, [.. Enumerable.Range(0, shop.Bays * shop.ProbesPerBay).Select(shop.TopicOf)]);
    }

    /// <summary>The next probe in turn that a connection speaks for.</summary>
    public int NextProbe(int connection) => (connection + (_sent[connection]++ * Connections)) % Probes;

    /// <summary>Publishes a reading with QoS 1 and waits for its acknowledgement.</summary>
    /// <param name="connection">The connection.</param>
    /// <param name="probe">The probe it speaks for.</param>
    /// <param name="at">When it was measured; each probe's instants have to differ.</param>
    /// <param name="number">Varies the values.</param>
    public async Task PublishAsync(int connection, int probe, DateTimeOffset at, int number)
    {
        string payload = string.Create(
            CultureInfo.InvariantCulture,
            $$"""{"at":"{{Instant.Of(at)}}","temperatureC":{{20 + (number % 50 * 0.01):0.00}},"humidityPct":{{50 + (number % 30 * 0.1):0.0}}}""");
        MqttClientPublishResult result = await _clients[connection].PublishStringAsync(_topics[probe], payload, MqttQualityOfServiceLevel.AtLeastOnce);
        if (!result.IsSuccess)
        {
            throw new IOException($"refused: {result.ReasonCode}");
        }
    }

    public void Dispose()
    {
        foreach (IMqttClient client in _clients)
        {
            client.Dispose();
        }
    }
}
