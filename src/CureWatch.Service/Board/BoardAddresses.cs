using CureWatch.Service.Settings;
using Microsoft.AspNetCore.Hosting.Server;
using Microsoft.AspNetCore.Hosting.Server.Features;

namespace CureWatch.Service.Board;

/// <summary>Where the board is reached, once it listens.</summary>
internal static class BoardAddresses
{
    public static string Plain(IServer server) => All(server).First();

    /// <returns>Where by HTTPS; null where it is not.</returns>
    public static string? Secure(IServer server) =>
        All(server).FirstOrDefault(a => a.StartsWith(Uri.UriSchemeHttps + Uri.SchemeDelimiter, StringComparison.Ordinal));

    /// <summary>Where people open it, for what is printed or scanned: as the settings say, which know of a proxy; else as this page was opened.</summary>
    public static Uri Printed(HttpRequest request) =>
        request.HttpContext.RequestServices.GetRequiredService<ServiceSettings>().Board.Address ?? new Uri($"{request.Scheme}://{request.Host}");

    private static ICollection<string> All(IServer server) => server.Features.Get<IServerAddressesFeature>()!.Addresses;
}
