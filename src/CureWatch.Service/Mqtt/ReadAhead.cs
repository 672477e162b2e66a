using MQTTnet;

namespace CureWatch.Service.Mqtt;

/// <summary>
/// How much of one connection with an external broker was read and is not dealt with yet. Without a bound the library reads on and keeps all
/// of it: the broker's own limit counts messages, whatever they hold, and none of those it sends at most once.
/// </summary>
internal sealed class ReadAhead
{
    /// <summary>Most of it [bytes]. Source (choice): half of what the pump's inbox holds.</summary>
    public const long MostBytes = 16L << 20;

    /// <summary>What a message takes up beside its payload [bytes]. Source (choice): a generous guess.</summary>
    private const int BareBytes = 500;

    private readonly Lock _lock = new();
    private TaskCompletionSource? _waiting;
    private long _bytes;

    /// <summary>What was read and is not dealt with [bytes].</summary>
    public long Bytes => Volatile.Read(ref _bytes);

    /// <summary>Counts a message that was read, and waits until the next one may be.</summary>
    public Task AddAsync(long payloadBytes, CancellationToken cancelled)
    {
        lock (_lock)
        {
            _bytes += payloadBytes + BareBytes;
            if (_bytes <= MostBytes)
            {
                return Task.CompletedTask;
            }

            _waiting = new TaskCompletionSource(TaskCreationOptions.RunContinuationsAsynchronously);
        }

        return _waiting.Task.WaitAsync(cancelled);
    }

    /// <summary>A message is dealt with: taken where nobody acknowledges it, else acknowledged.</summary>
    public void Remove(MqttApplicationMessage message)
    {
        lock (_lock)
        {
            _bytes -= message.Payload.Length + BareBytes;
            if (_bytes <= MostBytes)
            {
                _waiting?.TrySetResult();
            }
        }
    }
}
