using System.Collections.Concurrent;

namespace CureWatch.Service.Mqtt;

/// <summary>Some of what a broker keeps for us, brought to what it should be by as few messages as that takes.</summary>
internal sealed class Shelf(IOutlet outlet)
{
    private readonly Dictionary<string, OutputDocument> _kept = new(StringComparer.Ordinal);
    private readonly ConcurrentQueue<string> _found = new();

    /// <summary>Something is kept on a topic of ours that this run has not put there.</summary>
    public void Find(string topic) => _found.Enqueue(topic);

    /// <summary>Puts everything there that is wanted, and takes away all else.</summary>
    /// <param name="wanted">What is wanted, by topic.</param>
    /// <param name="isForgotten">Whether nobody knows any more what the broker keeps: then everything is published again.</param>
    /// <param name="cancelled">Ends it.</param>
    /// <exception cref="IOException">The broker cannot be reached; what it has taken so far is remembered.</exception>
    public async Task ArrangeAsync(Dictionary<string, OutputDocument> wanted, bool isForgotten, CancellationToken cancelled)
    {
        while (_found.TryDequeue(out string? topic))
        {
            _kept.TryAdd(topic, OutputDocument.Unknown);
        }

        foreach (string topic in isForgotten ? _kept.Keys.ToArray() : [])
        {
            _kept[topic] = OutputDocument.Unknown;
        }

        foreach ((string topic, OutputDocument document) in wanted)
        {
            await PutAsync(topic, document, cancelled).ConfigureAwait(false);
        }

        foreach (string topic in _kept.Keys.Where(t => !wanted.ContainsKey(t)).ToArray())
        {
            await PutAsync(topic, null, cancelled).ConfigureAwait(false);
        }
    }

    /// <summary>Puts a document on its topic, unless the same is there; takes away what is there where nothing is wanted.</summary>
    /// <exception cref="IOException">The broker cannot be reached.</exception>
    public async ValueTask PutAsync(string topic, OutputDocument? document, CancellationToken cancelled)
    {
        _ = _kept.TryGetValue(topic, out OutputDocument? before);
        if (document is null && before is not null)
        {
            await outlet.KeepAsync(topic, default, cancelled).ConfigureAwait(false);
            _kept.Remove(topic);
        }
        else if (document is not null && (before is null || !document.SaysTheSame(before)))
        {
            _kept[topic] = OutputDocument.Unknown;
            await outlet.KeepAsync(topic, document.Bytes, cancelled).ConfigureAwait(false);
            _kept[topic] = document;
        }
    }
}
