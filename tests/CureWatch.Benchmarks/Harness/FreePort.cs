using System.Net;
using System.Net.Sockets;

namespace CureWatch.Benchmarks.Harness;

/// <summary>A port of this machine that nobody listens on.</summary>
internal static class FreePort
{
    public static int Find()
    {
        using var listener = new TcpListener(IPAddress.Loopback, 0);
        listener.Start();
        return ((IPEndPoint)listener.LocalEndpoint).Port;
    }
}
