using System.Collections.Concurrent;

namespace CureWatch.Service.Mqtt;

/// <summary>The open connections. A session may outlive its connections; what tells them apart is the token that ends with each.</summary>
internal sealed class Connections
{
    private readonly ConcurrentDictionary<CancellationToken, Connection> _open = new();

    /// <summary>Whether a client has yet to say that it has all it was sent.</summary>
    public bool IsAnyUnheard => _open.Values.Any(c => c.IsUnheard);

    public Connection? Find(CancellationToken lifetime) => _open.GetValueOrDefault(lifetime);

    public Connection Of(CancellationToken lifetime)
    {
        if (_open.TryGetValue(lifetime, out Connection? known))
        {
            return known;
        }

        Connection connection = _open.GetOrAdd(lifetime, new Connection());
        lifetime.Register(() => _open.TryRemove(lifetime, out _));
        return connection;
    }
}
