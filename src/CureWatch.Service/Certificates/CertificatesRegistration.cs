using System.Net.Security;

namespace CureWatch.Service.Certificates;

/// <summary>Puts what the board shows by HTTPS into a host.</summary>
internal static class CertificatesRegistration
{
    /// <summary>A certificate of the shop's own authority.</summary>
    public static IServiceCollection AddCertificate(this IServiceCollection services, ShopAuthority authority, IReadOnlyList<ServedName> names) =>
        services.AddSingleton(authority)
            .AddSingleton<IServerCertificate>(p => new IssuedCertificate(authority, names, p.GetRequiredService<TimeProvider>()));

    /// <summary>The owner's certificate.</summary>
    /// <param name="services">The host's services.</param>
    /// <param name="first">What the files held at the start.</param>
    /// <param name="certificateFile">The file of the certificate.</param>
    /// <param name="keyFile">The file of its key.</param>
    public static IServiceCollection AddCertificate(
        this IServiceCollection services, SslStreamCertificateContext first, string certificateFile, string keyFile) =>
        services.AddSingleton<IServerCertificate>(p => new OwnersCertificate(
            first, certificateFile, keyFile, p.GetRequiredService<TimeProvider>(), p.GetRequiredService<ILogger<OwnersCertificate>>()));
}
