using CureWatch.Benchmarks.Harness;

namespace CureWatch.Benchmarks.Durable;

/// <summary>Twenty connections that publish with forty messages in flight each, as fast as they are acknowledged.</summary>
internal static class Load
{
    public const int Connections = 20;
    public const int InFlight = 40;

    /// <summary>Finer than any connection gets, so that no reading is of the future.</summary>
    private static readonly TimeSpan Step = TimeSpan.FromMicroseconds(100);

    /// <returns>How many messages were acknowledged, and in what time.</returns>
    public static async Task<(int Messages, TimeSpan Time)> RunAsync(Crowd crowd, TimeSpan time)
    {
        long started = TimeProvider.System.GetTimestamp();
        int[] counts = await Task.WhenAll(Enumerable.Range(0, crowd.Connections).Select(c => PublishAsync(crowd, c, time)));
        return (counts.Sum(), TimeProvider.System.GetElapsedTime(started));
    }

    private static async Task<int> PublishAsync(Crowd crowd, int connection, TimeSpan time)
    {
        DateTimeOffset first = TimeProvider.System.GetUtcNow();
        long started = TimeProvider.System.GetTimestamp();
        Task[] inFlight = [.. Enumerable.Repeat(Task.CompletedTask, InFlight)];
        int count = 0;
        for (; TimeProvider.System.GetElapsedTime(started) < time; count++)
        {
            await inFlight[count % InFlight]; // a broker acknowledges in order
            inFlight[count % InFlight] = crowd.PublishAsync(connection, crowd.NextProbe(connection), first + (count * Step), count);
        }

        await Task.WhenAll(inFlight);
        return count;
    }
}
