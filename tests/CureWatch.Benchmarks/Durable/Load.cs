using CureWatch.Benchmarks.Harness;

namespace CureWatch.Benchmarks.Durable;

/// <summary>Twenty connections that publish with forty messages in flight each, as fast as they are acknowledged.</summary>
internal static class Load
{
    public const int Connections = 20;
    public const int InFlight = 40;

    /// <returns>Acknowledged messages a second.</returns>
    public static async Task<double> RunAsync(Crowd crowd, int messagesPerConnection, DateTimeOffset first)
    {
        long started = TimeProvider.System.GetTimestamp();
        await Task.WhenAll(Enumerable.Range(0, crowd.Connections).Select(c => PublishAsync(crowd, c, messagesPerConnection, first)));
        return crowd.Connections * messagesPerConnection / TimeProvider.System.GetElapsedTime(started).TotalSeconds;
    }

    private static async Task PublishAsync(Crowd crowd, int connection, int count, DateTimeOffset first)
    {
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
            await crowd.PublishAsync(connection, crowd.NextProbe(connection), first.AddMilliseconds(i), i);
            _ = slots.Release();
        }
    }
}
