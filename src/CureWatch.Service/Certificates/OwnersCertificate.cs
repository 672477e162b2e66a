using System.Net.Security;
using System.Security.Cryptography;

namespace CureWatch.Service.Certificates;

/// <summary>A certificate that the owner of the shop has from elsewhere, and renews by writing the files anew.</summary>
internal sealed class OwnersCertificate(
    SslStreamCertificateContext first, string certificateFile, string keyFile, TimeProvider clock, ILogger<OwnersCertificate> log) : IServerCertificate
{
    /// <summary>How often it is looked whether the files are others. Source (choice).</summary>
    private static readonly TimeSpan Look = TimeSpan.FromMinutes(1);

    private readonly Lock _one = new();
    private SslStreamCertificateContext _context = first;
    private (string Certificate, string Key) _written = Written(certificateFile, keyFile);
    private long _lookedAt = clock.GetTimestamp();

    public SslStreamCertificateContext Now()
    {
        lock (_one)
        {
            if (clock.GetElapsedTime(_lookedAt) < Look)
            {
                return _context;
            }

            _lookedAt = clock.GetTimestamp();
            (string Certificate, string Key) written = Written(certificateFile, keyFile);
            if (written != _written)
            {
                _written = written;
                TakeUp();
            }

            return _context;
        }
    }

    private void TakeUp()
    {
        if (PemPair.Read(certificateFile, keyFile) is { } renewed)
        {
            _context = renewed;
            Log.Renewed(log, certificateFile, renewed.TargetCertificate.NotAfter);
        }
        else
        {
            Log.NotRenewed(log, certificateFile, PemPair.Allowed); // half written: it is looked at again once it is written on
        }
    }

    private static (string Certificate, string Key) Written(string certificateFile, string keyFile) => (Digest(certificateFile), Digest(keyFile));

    /// <summary>By what is in a file: the time of a link to it, or of a copy that keeps times, tells nothing.</summary>
    /// <returns>Its SHA-256; nothing where it cannot be read.</returns>
    private static string Digest(string file)
    {
        try
        {
            return Convert.ToHexString(SHA256.HashData(File.ReadAllBytes(file)));
        }
        catch (Exception e) when (e is IOException or UnauthorizedAccessException)
        {
            return "";
        }
    }
}
