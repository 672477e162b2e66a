using System.Net;

namespace CureWatch.Service.Certificates;

/// <summary>A name or an address by which the board is opened.</summary>
/// <param name="Text">The name, in small letters; an address as it is written in a certificate.</param>
/// <param name="Address">The address; null where it is a name.</param>
internal sealed record ServedName(string Text, IPAddress? Address)
{
    /// <summary>By which this machine reaches its own.</summary>
    private static readonly ServedName[] OfThisMachine = [Of("localhost"), Of("127.0.0.1"), Of("[::1]")];

    /// <summary>Every name that a certificate of the board needs.</summary>
    /// <param name="hosts">What the board answers to besides the loopback's names, with a port or without.</param>
    public static IReadOnlyList<ServedName> All(IEnumerable<string> hosts) => [.. OfThisMachine.Concat(hosts.Select(Of)).Distinct()];

    private static ServedName Of(string host)
    {
        string name = new HostString(host).Host.Trim('[', ']').ToLowerInvariant();
        return IPAddress.TryParse(name, out IPAddress? address) ? new ServedName(address.ToString(), address) : new ServedName(name, null);
    }
}
