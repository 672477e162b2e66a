using System.Formats.Asn1;
using System.Globalization;
using System.Net;
using System.Net.Sockets;
using System.Security.Cryptography.X509Certificates;

namespace CureWatch.Service.Certificates;

/// <summary>
/// What the shop's own authority may vouch for: the shop's names, and addresses that no public network uses. Whoever gets hold of its key can set
/// up no bank with it on a phone that trusts it.
/// </summary>
/// <remarks>
/// Source (law): the name constraints of RFC 5280, §4.2.1.10. Private addresses by RFC 1918, 3927, 4193 and 4291; names of private networks by RFC 6762
/// (local), RFC 8375 (home.arpa) and the registry of special-use names (internal).
/// </remarks>
internal static class NameLimits
{
    private const string Oid = "2.5.29.30";

    private static readonly string[] PrivateNames = ["localhost", "local", "home.arpa", "internal"];

    private static readonly IPNetwork[] PrivateAddresses =
    [
        IPNetwork.Parse("127.0.0.0/8"), IPNetwork.Parse("10.0.0.0/8"), IPNetwork.Parse("172.16.0.0/12"), IPNetwork.Parse("192.168.0.0/16"),
        IPNetwork.Parse("169.254.0.0/16"), IPNetwork.Parse("::1/128"), IPNetwork.Parse("fc00::/7"), IPNetwork.Parse("fe80::/10"),
    ];

    /// <param name="names">Names and addresses that have to be among them.</param>
    public static X509Extension Permitting(IReadOnlyList<ServedName> names)
    {
        var asn = new AsnWriter(AsnEncodingRules.DER);
        using (asn.PushSequence())
        using (asn.PushSequence(new Asn1Tag(TagClass.ContextSpecific, 0)))
        {
            foreach (string name in PrivateNames.Concat(names.Where(n => n.Address is null).Select(n => n.Text)).Distinct(StringComparer.Ordinal))
            {
                using (asn.PushSequence())
                {
                    asn.WriteCharacterString(UniversalTagNumber.IA5String, new IdnMapping().GetAscii(name), new Asn1Tag(TagClass.ContextSpecific, 2));
                }
            }

            foreach (IPNetwork network in PrivateAddresses.Concat(names.Where(n => n.Address is not null).Select(n => Alone(n.Address!))).Distinct())
            {
                using (asn.PushSequence())
                {
                    asn.WriteOctetString([.. network.BaseAddress.GetAddressBytes(), .. MaskOf(network)], new Asn1Tag(TagClass.ContextSpecific, 7));
                }
            }
        }

        return new X509Extension(Oid, asn.Encode(), critical: true);
    }

    private static IPNetwork Alone(IPAddress address) => new(address, BitsOf(address));

    private static int BitsOf(IPAddress address) => address.AddressFamily == AddressFamily.InterNetwork ? 32 : 128;

    private static byte[] MaskOf(IPNetwork network) =>
        [.. Enumerable.Range(0, BitsOf(network.BaseAddress) / 8).Select(i => (byte)(0xFF00 >> Math.Clamp(network.PrefixLength - (8 * i), 0, 8)))];
}
