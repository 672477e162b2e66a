using MQTTnet.Server;

namespace CureWatch.Benchmarks.Harness;

/// <summary>The peer: the same embedded broker library, acknowledging without storing or reading anything.</summary>
internal static class BareBroker
{
    public const string Verb = "bare-broker";

    public static async Task RunAsync(int port)
    {
        MqttServerOptions options = new MqttServerOptionsBuilder().WithDefaultEndpoint().WithDefaultEndpointPort(port).Build();
        using MqttServer server = new MqttServerFactory().CreateMqttServer(options);
        await server.StartAsync();
        Console.WriteLine("ready");
        await Console.In.ReadLineAsync();
        await server.StopAsync(new MqttServerStopOptions());
    }
}
