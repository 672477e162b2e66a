using System.Collections.Concurrent;
using System.Globalization;
using CureWatch.Benchmarks.Harness;
using MQTTnet;

namespace CureWatch.Benchmarks.Latency;

/// <summary>
/// Publishes readings at a steady rate, whether the one before is acknowledged or not, and hears when each appears in its bay's climate.
/// </summary>
internal sealed class Feed : IDisposable
{
    private const int Connections = 20;

    private static readonly TimeSpan Beat = TimeSpan.FromMilliseconds(1);

    private readonly ConcurrentDictionary<(string Bay, string At), long> _published = new();
    private readonly ConcurrentQueue<double> _milliseconds = new();
    private readonly double _perSecond;
    private Crowd? _crowd;
    private Listener? _listener;
    private int _acknowledged;

    private Feed(double perSecond) => _perSecond = perSecond;

    public int Acknowledged => _acknowledged;

    /// <summary>Published and not acknowledged yet.</summary>
    public int Open { get; private set; }

    public static async Task<Feed> ConnectAsync(int port, LoadShop shop, double perSecond)
    {
        var feed = new Feed(perSecond);
        feed._listener = await Listener.AtAsync(port, feed.Hear);
        feed._crowd = await Crowd.ConnectAsync(port, shop, Connections);
        return feed;
    }

    /// <summary>Publishes for a while.</summary>
    public async Task RunAsync(TimeSpan time)
    {
        long started = TimeProvider.System.GetTimestamp();
        int published = 0, before = _acknowledged;
        using var timer = new PeriodicTimer(Beat, TimeProvider.System);
        while (await timer.WaitForNextTickAsync() && TimeProvider.System.GetElapsedTime(started) is var elapsed && elapsed < time)
        {
            for (; published < elapsed.TotalSeconds * _perSecond; published++)
            {
                _ = PublishAsync(published);
            }

            Open = published - (_acknowledged - before);
        }
    }

    /// <summary>How long each reading took that was heard since this was asked before [ms], from the shortest.</summary>
    public double[] TakeLatencies()
    {
        double[] taken = [.. _milliseconds.Order()];
        _milliseconds.Clear();
        return taken;
    }

    public void Forget() => _published.Clear();

    public void Dispose()
    {
        _crowd?.Dispose();
        _listener?.Dispose();
    }

    private async Task PublishAsync(int number)
    {
        int connection = number % Connections;
        int probe = _crowd!.NextProbe(connection);
        long milliseconds = TimeProvider.System.GetUtcNow().ToUnixTimeMilliseconds(); // no finer than outputs are written
        DateTimeOffset at = DateTimeOffset.FromUnixTimeMilliseconds(milliseconds);
        _published[($"bay-{probe}", Millisecond(at))] = TimeProvider.System.GetTimestamp();
        await _crowd.PublishAsync(connection, probe, at, number);
        _ = Interlocked.Increment(ref _acknowledged);
    }

    private void Hear(MqttApplicationMessage message)
    {
        long now = TimeProvider.System.GetTimestamp();
        string[] topic = message.Topic.Split('/');
        if (topic is [.., var bay, "climate"] && AtOf(message) is { } at && _published.TryRemove((bay, at), out long published))
        {
            _milliseconds.Enqueue(TimeProvider.System.GetElapsedTime(published, now).TotalMilliseconds);
        }
    }

    private static string? AtOf(MqttApplicationMessage message)
    {
        string text = message.ConvertPayloadToString() ?? "";
        const string Key = "\"at\":\"";
        int start = text.IndexOf(Key, StringComparison.Ordinal) + Key.Length;
        return start >= Key.Length && DateTimeOffset.TryParse(text.AsSpan(start, text.IndexOf('"', start) - start), CultureInfo.InvariantCulture, out DateTimeOffset at)
            ? Millisecond(at)
            : null;
    }

    private static string Millisecond(DateTimeOffset at) => at.UtcDateTime.ToString("HH:mm:ss.fff", CultureInfo.InvariantCulture);
}
