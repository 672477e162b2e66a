using System.Collections.Concurrent;
using CureWatch.Service.Pump;

namespace CureWatch.Service.Mqtt;

/// <summary>
/// The messages of quality 2 that a client has sent and not released yet. Until then one with the same packet identifier is the same message
/// again (MQTT 5, section 4.3.3). The embedded broker's sessions end with their connections, and so does this.
/// </summary>
internal sealed class Unreleased
{
    /// <summary>A client that sends on and releases nothing is not followed any further than this. Source (choice).</summary>
    private const int Most = 1_000;

    private readonly ConcurrentDictionary<ushort, Task<Answer>> _answers = new();

    public void Add(ushort packet, Task<Answer> answered)
    {
        if (_answers.Count < Most)
        {
            _answers[packet] = answered;
        }
    }

    /// <returns>What the message waits for that was sent before under that identifier; null where there was none, or it was not stored.</returns>
    public Task<Answer>? Find(ushort packet) =>
        _answers.TryGetValue(packet, out Task<Answer>? answered) && answered is not { IsCompletedSuccessfully: true, Result: Answer.NotStored }
            ? answered
            : null;

    public void Release(ushort packet) => _answers.TryRemove(packet, out _);
}
