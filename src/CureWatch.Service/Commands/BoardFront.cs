using System.Net;
using System.Net.Security;
using CureWatch.Service.Board;
using CureWatch.Service.Certificates;
using CureWatch.Service.Journal;
using CureWatch.Service.Settings;
using Microsoft.AspNetCore.Server.Kestrel.Core;
using Microsoft.AspNetCore.Server.Kestrel.Https;

namespace CureWatch.Service.Commands;

/// <summary>Where the board listens: plainly, and by HTTPS where that is set up.</summary>
internal static class BoardFront
{
    private const string Allowed = "the shop's own authority as it was made, or none yet, in a folder that may be written";

    /// <returns>False where it cannot be opened by HTTPS as it is set up.</returns>
    public static bool TryAdd(WebApplicationBuilder builder, BoardSettings board, DataFolder folder, TimeProvider clock, Faults faults)
    {
        if (board.Https is { } https)
        {
            if (!TryAddCertificate(builder.Services, https.Files, ServedName.All(board.Hosts), folder, clock, faults))
            {
                return false;
            }

            builder.Services.AddHostedService<CertificateWatch>();
        }

        builder.WebHost.UseKestrelCore().UseKestrelHttpsConfiguration().ConfigureKestrel(kestrel =>
        {
            Listen(kestrel, board.Listen, board.Port, _ => { });
            if (board.Https is { } secure)
            {
                IServerCertificate certificate = kestrel.ApplicationServices.GetRequiredService<IServerCertificate>();
                Listen(kestrel, board.Listen, secure.Port, listen => listen.UseHttps(new TlsHandshakeCallbackOptions
                {
                    OnConnection = _ => ValueTask.FromResult(new SslServerAuthenticationOptions { ServerCertificateContext = certificate.Now() }),
                }));
            }
        });
        return true;
    }

    private static bool TryAddCertificate(
        IServiceCollection services, CertificateFiles? files, IReadOnlyList<ServedName> names, DataFolder folder, TimeProvider clock, Faults faults)
    {
        if (files is not null)
        {
            SslStreamCertificateContext? pair = PemPair.Read(files.Certificate, files.Key);
            if (pair is null)
            {
                faults.Add(files.Certificate, "certificate", "no certificate with its key", PemPair.Allowed);
                return false;
            }

            services.AddCertificate(pair, files.Certificate, files.Key);
            return true;
        }

        try
        {
            services.AddCertificate(new AuthorityFolder(folder.Disk, folder.Path).For(names, clock.GetUtcNow()), names);
            return true;
        }
        catch (Exception e) when (e is InvalidDataException or IOException or UnauthorizedAccessException)
        {
            faults.Add(folder.Path, AuthorityFolder.Name, e.Message, Allowed);
            return false;
        }
    }

    private static void Listen(KestrelServerOptions kestrel, Listen where, int port, Action<ListenOptions> how)
    {
        if (where == Settings.Listen.All)
        {
            kestrel.ListenAnyIP(port, how);
        }
        else
        {
            kestrel.Listen(IPAddress.Loopback, port, how);
        }
    }
}
