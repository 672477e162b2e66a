using System.Security.Cryptography.X509Certificates;
using CureWatch.Service.Certificates;

namespace CureWatch.Service.Tests.Certificates;

/// <summary>What an owner has from elsewhere: a certificate and its key, as text.</summary>
internal static class OwnersFiles
{
    public static (string Certificate, string Key) Of(ShopAuthority authority, IReadOnlyList<ServedName> names, DateTimeOffset at)
    {
        using X509Certificate2 issued = authority.Issue(names, at);
        using var exportable = X509CertificateLoader.LoadPkcs12(issued.Export(X509ContentType.Pkcs12), null, X509KeyStorageFlags.Exportable);
        return (exportable.ExportCertificatePem(), exportable.GetECDsaPrivateKey()!.ExportPkcs8PrivateKeyPem());
    }
}
