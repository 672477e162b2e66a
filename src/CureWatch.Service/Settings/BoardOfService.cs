using System.Collections.Immutable;

namespace CureWatch.Service.Settings;

/// <summary>The board as people write it.</summary>
internal static class BoardOfService
{
    /// <summary>The usual second port for pages, open to a program without privileges.</summary>
    public const int UsualPort = 8080;

    private const string AddressAllowed = "an address such as https://board.example, by a name in hosts and without a path";

    public static BoardSettings Read(JsonCursor board)
    {
        _ = board.Keys([], "port", "listen", "hosts", "address", "signIn", "https");
        int port = board["port"].Integer(0, Ports.Highest) ?? UsualPort;
        Listen listen = board["listen"].OneOf<Listen>() ?? Listen.Loopback;
        IReadOnlyList<JsonCursor> places = board["hosts"].Items();
        var hosts = ImmutableArray.CreateBuilder<string>();
        foreach (JsonCursor place in places)
        {
            if (place.Host() is not { } host)
            {
                continue;
            }

            if (hosts.Contains(host, StringComparer.OrdinalIgnoreCase))
            {
                place.Refuse("each host once, in capitals or not");
            }

            hosts.Add(host);
        }

        string? address = board["address"].String(text => IsAddress(text, hosts), AddressAllowed);
        if (listen == Listen.All && places.Count == 0)
        {
            board["listen"].Refuse("loopback where hosts is empty: on a network it answers only to names it knows");
        }

        bool isSignedIn = board["signIn"].Flag() ?? listen == Listen.All;
        if (listen == Listen.All && !isSignedIn)
        {
            board["signIn"].Refuse("true where the board listens to the whole network");
        }

        HttpsSettings? https = board["https"].IsAbsent ? null : HttpsOfBoard.Read(board["https"]);
        if (https is not null && https.Port == port && port > 0)
        {
            board["https"]["port"].Refuse("another port than the board's own");
        }

        return new BoardSettings(port, listen, hosts.ToImmutable()) { IsSignedIn = isSignedIn, Https = https, Address = address is null ? null : new Uri(address) };
    }

    /// <summary>At another name every link would lead to a page that is refused.</summary>
    private static bool IsAddress(string text, IEnumerable<string> hosts) =>
        Uri.TryCreate(text, UriKind.Absolute, out Uri? uri)
        && uri is { Scheme: "http" or "https", UserInfo: "", PathAndQuery: "/", Fragment: "", Host.Length: > 0 }
        && hosts.Contains(uri.Host.Trim('[', ']'), StringComparer.OrdinalIgnoreCase);
}
