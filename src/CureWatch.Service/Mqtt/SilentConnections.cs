using System.Net.Sockets;

namespace CureWatch.Service.Mqtt;

/// <summary>
/// Connections that have not yet said who they are. Whoever opens many and says nothing on them takes no client's place: where all are taken, the one that
/// has been silent longest is closed, and a client says at once who it is.
/// </summary>
internal sealed class SilentConnections
{
    private readonly LinkedList<Socket> _silent = [];

    /// <summary>One has come.</summary>
    /// <returns>Its place.</returns>
    public LinkedListNode<Socket> Enter(Socket socket)
    {
        lock (_silent)
        {
            return _silent.AddLast(socket);
        }
    }

    /// <summary>One has spoken, or gone.</summary>
    public void Leave(LinkedListNode<Socket>? place)
    {
        lock (_silent)
        {
            if (place?.List is not null)
            {
                _silent.Remove(place);
            }
        }
    }

    /// <summary>Closes the one that has been silent longest.</summary>
    /// <returns>False where all have spoken.</returns>
    public bool CloseOldest()
    {
        lock (_silent)
        {
            if (_silent.First is not { } oldest)
            {
                return false;
            }

            _silent.Remove(oldest);
            oldest.Value.Dispose();
            return true;
        }
    }
}
