using CureWatch.Service.Api;
using CureWatch.Service.Certificates;
using CureWatch.Service.Charts;
using CureWatch.Service.People;
using CureWatch.Service.Settings;
using Microsoft.AspNetCore.Hosting.Server;

namespace CureWatch.Service.Board;

/// <summary>How a phone comes to trust the shop's own authority. It is open to everybody: a phone needs it before anybody signs in there.</summary>
internal static class CertificatePages
{
    public const string Path = "/certificate";

    private const string FilePath = $"{Path}/authority.cer";

    /// <summary>By which a phone knows what it is to install (RFC 2585 has another, which phones do not offer to install; from memory).</summary>
    private const string FileType = "application/x-x509-ca-cert";

    public static void Map(IEndpointRouteBuilder app)
    {
        app.MapGet(Path, Show).ExcludeFromDescription().LetsEverybody();
        app.MapGet(FilePath, (ShopAuthority authority) => Results.Bytes(authority.Certificate, FileType, "authority.cer")).ExcludeFromDescription().LetsEverybody();
    }

    private static Page<CertificatePage> Show(HttpContext context, ShopAuthority authority, IServer server, ServiceSettings settings, Lookout lookout)
    {
        var here = new Uri($"{context.Request.Scheme}://{context.Request.Host}{Path}");
        return new Page<CertificatePage>(
            StatusCodes.Status200OK,
            (nameof(CertificatePage.View), new CertificateView(
                SignInPages.ShopOf(lookout),
                authority.Fingerprint,
                FilePath,
                [.. ServedName.All(settings.Board.Hosts).Select(n => n.Text)],
                authority.Until,
                $"{Uri.UriSchemeHttps}://{new HostString(context.Request.Host.Host, BindingAddress.Parse(BoardAddresses.Secure(server)!).Port)}/bay",
                context.Request.IsHttps,
                here.AbsoluteUri,
                SquareCode.Of(here.AbsoluteUri),
                here.IsLoopback)));
    }
}
