using System.Collections.Concurrent;

namespace CureWatch.Service.Mqtt;

/// <summary>Some of what a broker keeps for us, brought to what it should be by as few messages as that takes.</summary>
internal sealed class Shelf(IOutlet outlet)
{
    private readonly Dictionary<string, OutputDocument> _kept = new(StringComparer.Ordinal);
    private readonly ConcurrentQueue<string> _found = new();

    /// <summary>Something is kept on a topic of ours that this run has not put there.</summary>
    public void Find(string topic) => _found.Enqueue(topic);

    /// <summary>Nobody knows any more what the broker keeps: everything is published again.</summary>
    public void Forget()
    {
        foreach (string topic in _kept.Keys.ToArray())
        {
            _kept[topic] = OutputDocument.Unknown;
        }
    }

    /// <exception cref="IOException">The broker cannot be reached; what it has taken so far is remembered.</exception>
    public async Task ArrangeAsync(Dictionary<string, OutputDocument> wanted, CancellationToken cancelled)
    {
        while (_found.TryDequeue(out string? topic))
        {
            _kept.TryAdd(topic, OutputDocument.Unknown);
        }

        foreach ((string topic, OutputDocument document) in wanted)
        {
            if (!_kept.TryGetValue(topic, out OutputDocument? before) || !document.SaysTheSame(before))
            {
                _kept[topic] = OutputDocument.Unknown;
                await outlet.KeepAsync(topic, document.Bytes, cancelled).ConfigureAwait(false);
                _kept[topic] = document;
            }
        }

        foreach (string topic in _kept.Keys.Where(t => !wanted.ContainsKey(t)).ToArray())
        {
            await outlet.KeepAsync(topic, default, cancelled).ConfigureAwait(false);
            _kept.Remove(topic);
        }
    }
}
