using System.Buffers;
using System.Collections.Concurrent;
using System.Globalization;
using System.Text.Json;
using MQTTnet;

namespace CureWatch.Benchmarks.Kills;

/// <summary>What somebody who subscribes to the kept warnings has ever seen, over all restarts.</summary>
internal sealed class HeardWarnings
{
    private readonly ConcurrentDictionary<int, (string Kind, string RaisedAt)> _raised = new();
    private readonly ConcurrentDictionary<int, bool> _over = new();

    public IEnumerable<KeyValuePair<int, (string Kind, string RaisedAt)>> Raised => _raised;

    /// <summary>The numbers of those that were seen to be over.</summary>
    public ICollection<int> Over => _over.Keys;

    /// <summary>The numbers of those that were one warning before a kill and another after it.</summary>
    public ConcurrentQueue<int> Changed { get; } = new();

    public async Task RunAsync(int port, CancellationToken cancelled)
    {
        using Connected broker = await Connected.ToAsync(port, "listener", cancelled, Hear);
        await broker.SubscribeAsync($"{LoadedShop.Root}/+/warnings/+", cancelled);
        await Task.Delay(Timeout.InfiniteTimeSpan, TimeProvider.System, cancelled);
    }

    private void Hear(MqttApplicationMessage message)
    {
        int number = int.Parse(message.Topic.AsSpan(message.Topic.LastIndexOf('/') + 1), CultureInfo.InvariantCulture);
        if (message.Payload.IsEmpty)
        {
            _over[number] = true;
            return;
        }

        JsonElement warning = JsonElement.Parse(message.Payload.ToArray());
        (string, string) seen = (warning.GetProperty("kind").GetString()!, warning.GetProperty("raisedAt").GetString()!);
        if (_raised.GetOrAdd(number, seen) != seen || _over.ContainsKey(number))
        {
            Changed.Enqueue(number);
        }
    }
}
