using System.Collections.Concurrent;
using CureWatch.Service.Pump;

namespace CureWatch.Service.Mqtt;

/// <summary>
/// One network connection to a broker, from its opening to its end. A client that comes back has a new one, so an acknowledgement or a
/// backlog of the one before is never taken for its own.
/// </summary>
internal sealed class Connection
{
    private readonly ConcurrentDictionary<ushort, Task<Answer>> _unacknowledged = new();
    private int _unheard;

    /// <summary>The probes that were quiet since it opened, so that their readings are of now. Guarded by <see cref="CatchUp"/>.</summary>
    public HashSet<string> CaughtUp { get; } = new(StringComparer.Ordinal);

    /// <summary>What its client has not released yet.</summary>
    public Unreleased Unreleased { get; } = new();

    /// <summary>The packet that is being taken: a connection's packets are taken one after the other.</summary>
    public ushort Current { get; set; }

    /// <summary>What the newest of its messages waits for.</summary>
    public Task Newest { get; private set; } = Task.CompletedTask;

    /// <summary>Whether its client has yet to say that it has all it was sent.</summary>
    public bool IsUnheard => Volatile.Read(ref _unheard) > 0;

    /// <summary>A message is on its way to the client, who will say when it has it.</summary>
    public void Send() => Interlocked.Increment(ref _unheard);

    /// <summary>The client has one of the messages.</summary>
    public void Hear() => Interlocked.Decrement(ref _unheard);

    /// <summary>Remembers what the acknowledgement of the present packet has to wait for.</summary>
    public void Await(Task<Answer> answer) => Newest = _unacknowledged[Current] = answer;

    /// <summary>What the acknowledgement of a packet has to wait for; null for nothing.</summary>
    public Task<Answer>? TakeAwaited(ushort packet) => _unacknowledged.TryRemove(packet, out Task<Answer>? answer) ? answer : null;
}
