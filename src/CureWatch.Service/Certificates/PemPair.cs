using System.Net.Security;
using System.Security.Cryptography;
using System.Security.Cryptography.X509Certificates;

namespace CureWatch.Service.Certificates;

/// <summary>A certificate with its key, in two files of PEM; behind the certificate may stand those that vouch for it.</summary>
internal static class PemPair
{
    /// <summary>What the files have to be.</summary>
    public const string Allowed = "a certificate in PEM, and the key that belongs to it, without a password";

    /// <returns>What a server shows; null where the files are no such pair, or cannot be read.</returns>
    public static SslStreamCertificateContext? Read(string certificateFile, string keyFile)
    {
        try
        {
            using var pair = X509Certificate2.CreateFromPemFile(certificateFile, keyFile);
            var vouching = new X509Certificate2Collection();
            vouching.ImportFromPemFile(certificateFile);
            vouching.RemoveAt(0);
            return SslStreamCertificateContext.Create(X509CertificateLoader.LoadPkcs12(pair.Export(X509ContentType.Pkcs12), null), vouching, offline: true);
        }
        catch (Exception e) when (e is CryptographicException or IOException or UnauthorizedAccessException or ArgumentException)
        {
            return null;
        }
    }
}
