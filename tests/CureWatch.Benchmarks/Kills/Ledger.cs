using System.Collections.Concurrent;

namespace CureWatch.Benchmarks.Kills;

/// <summary>What the senders know: what they sent, and what truly came back as acknowledged. A key is sent again until it is.</summary>
internal sealed class Ledger
{
    private readonly ConcurrentDictionary<string, bool> _acknowledged = new(StringComparer.Ordinal);
    private int _again;

    /// <summary>Messages sent once more, of those acknowledged or not.</summary>
    public int Again => _again;

    public int Sent => _acknowledged.Count;

    public IEnumerable<string> Acknowledged => _acknowledged.Where(a => a.Value).Select(a => a.Key);

    /// <summary>What was answered with a no, which nothing in this load should be.</summary>
    public ConcurrentQueue<string> Refused { get; } = new();

    public void Sending(string key)
    {
        if (!_acknowledged.TryAdd(key, false))
        {
            _ = Interlocked.Increment(ref _again);
        }
    }

    public void Acknowledge(string key) => _acknowledged[key] = true;
}
