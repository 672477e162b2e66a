using System.Collections.Concurrent;
using System.Globalization;
using CureWatch.Benchmarks.Durable;
using CureWatch.Benchmarks.Harness;
using MQTTnet.Exceptions;

namespace CureWatch.Benchmarks.Peers;

/// <summary>Publishes as <see cref="Load"/> does, and writes down what was acknowledged.</summary>
internal sealed class KeyedLoad
{
    private static readonly TimeSpan Step = TimeSpan.FromMicroseconds(100);

    private readonly ConcurrentBag<string> _acknowledged = [];

    public IReadOnlyCollection<string> Acknowledged => _acknowledged;

    public static string KeyOf(string bay, string probe, DateTimeOffset at) => string.Create(CultureInfo.InvariantCulture, $"{bay}/{probe} {at.UtcTicks}");

    /// <summary>Publishes so many on each connection, or until the broker is gone.</summary>
    public async Task RunAsync(int port, LoadShop shop, int messagesPerConnection)
    {
        using Crowd crowd = await Crowd.ConnectAsync(port, shop, Load.Connections);
        await Task.WhenAll(Enumerable.Range(0, crowd.Connections).Select(c => PublishAsync(crowd, c, shop, messagesPerConnection)));
    }

    private async Task PublishAsync(Crowd crowd, int connection, LoadShop shop, int count)
    {
        long ticks = TimeProvider.System.GetUtcNow().UtcTicks;
        var first = new DateTimeOffset(ticks - (ticks % Step.Ticks), TimeSpan.Zero); // no finer than it is written
        Task[] inFlight = [.. Enumerable.Repeat(Task.CompletedTask, Load.InFlight)];
        try
        {
            for (int i = 0; i < count; i++)
            {
                await inFlight[i % Load.InFlight];
                inFlight[i % Load.InFlight] = SendAsync(i);
            }

            await Task.WhenAll(inFlight);
        }
        catch (Exception e) when (e is MqttCommunicationException or MqttClientNotConnectedException or IOException or InvalidOperationException or OperationCanceledException)
        {
            // It was killed: what is not acknowledged by now never will be.
            _ = await Task.WhenAll(inFlight).ContinueWith(t => t.Exception, TaskScheduler.Default);
        }

        async Task SendAsync(int i)
        {
            int probe = crowd.NextProbe(connection);
            DateTimeOffset at = first + (i * Step);
            await crowd.PublishAsync(connection, probe, at, i);
            string[] topic = shop.TopicOf(probe).Split('/');
            _acknowledged.Add(KeyOf(topic[3], topic[5], at));
        }
    }
}
