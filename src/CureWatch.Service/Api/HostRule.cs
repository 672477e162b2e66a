using System.Collections.Immutable;
using System.Net;

namespace CureWatch.Service.Api;

/// <summary>
/// Which host names this service answers to. This is what keeps a foreign page out that lets its own name point at this
/// machine (DNS rebinding): the browser then sends that name.
/// </summary>
/// <param name="hosts">Names besides the loopback's, as <c>name</c> for any port or <c>name:port</c>.</param>
internal sealed class HostRule(ImmutableArray<string> hosts)
{
    private const int DefaultPort = 80, DefaultSecurePort = 443;

    /// <summary>Whether a request's Host may be answered.</summary>
    /// <param name="host">The Host of the request.</param>
    /// <param name="localPort">The port the request came in on.</param>
    /// <param name="isHttps">Whether it came by HTTPS.</param>
    public bool Allows(HostString host, int localPort, bool isHttps)
    {
        if (!host.HasValue)
        {
            return false;
        }

        bool isOwnPort = (host.Port ?? (isHttps ? DefaultSecurePort : DefaultPort)) == localPort;
        return (isOwnPort && IsLoopback(host.Host)) || hosts.Any(h => Matches(h, host));
    }

    /// <summary>
    /// Whether an origin is one of the names by HTTPS, which a proxy before this service ends: at the usual port, or at the one the proxy passes on as
    /// Host; another port is another's page.
    /// </summary>
    public bool IsNamedByHttps(string origin, HostString host) => hosts.Any(h => IsHttps(origin, h) || (Matches(h, host) && IsHttps(origin, host.ToString())));

    private static bool IsHttps(string origin, string authority) => origin.Equals($"https://{authority}", StringComparison.OrdinalIgnoreCase);

    private static bool IsLoopback(string name) =>
        name.Equals("localhost", StringComparison.OrdinalIgnoreCase)
        || (IPAddress.TryParse(name.Trim('[', ']'), out IPAddress? address) && IPAddress.IsLoopback(address));

    private static bool Matches(string allowed, HostString host)
    {
        var named = new HostString(allowed);
        return named.Host.Equals(host.Host, StringComparison.OrdinalIgnoreCase) && (named.Port is null || named.Port == host.Port);
    }
}
