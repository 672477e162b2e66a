namespace CureWatch.Service.Settings;

/// <summary>Port numbers, and who may be reached behind them.</summary>
internal static class Ports
{
    public const int Highest = 65_535;

    private const string HostAllowed = "a host name or address without a port, such as board.example or 192.0.2.7";

    /// <summary>A host's name or address.</summary>
    public static string? Host(this JsonCursor place)
    {
        string? host = place.String(_ => true, HostAllowed);
        if (host is null || Uri.CheckHostName(host) is UriHostNameType.Dns or UriHostNameType.IPv4 or UriHostNameType.IPv6)
        {
            return host;
        }

        if (host.Contains('@', StringComparison.Ordinal))
        {
            place.Refuse("a user before the host", HostAllowed);   // and perhaps their password, which is not shown
        }
        else
        {
            place.Refuse(HostAllowed);
        }

        return null;
    }
}
