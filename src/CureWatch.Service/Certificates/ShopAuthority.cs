using System.Globalization;
using System.Security.Cryptography;
using System.Security.Cryptography.X509Certificates;

namespace CureWatch.Service.Certificates;

/// <summary>The shop's own authority: a phone that trusts it believes that this service is the shop's.</summary>
/// <param name="certificate">Its certificate, with its key.</param>
internal sealed class ShopAuthority(X509Certificate2 certificate) : IDisposable
{
    /// <summary>
    /// How long a certificate of the board is good: what a browser takes from a public authority (CA/Browser Forum, ballot SC22, from memory: 398 days), less one.
    /// </summary>
    public static readonly TimeSpan OfAServer = TimeSpan.FromDays(397);

    /// <summary>How long the authority is good. Source (choice): longer than any phone in the bay.</summary>
    private const int Years = 10;

    /// <summary>A phone's clock may be behind.</summary>
    private static readonly TimeSpan Behind = TimeSpan.FromDays(1);

    private static readonly Oid ServerAuthentication = new("1.3.6.1.5.5.7.3.1");

    /// <summary>What a phone installs [DER].</summary>
    public byte[] Certificate => certificate.RawData;

    /// <summary>What is compared before it is trusted: SHA-256 of its certificate, in pairs.</summary>
    public string Fingerprint => string.Join(' ', certificate.GetCertHash(HashAlgorithmName.SHA256).Select(b => b.ToString("X2", CultureInfo.InvariantCulture)));

    /// <summary>From when on it vouches [UTC].</summary>
    public DateTimeOffset From => new(certificate.NotBefore.ToUniversalTime(), TimeSpan.Zero);

    /// <summary>Until when it vouches [UTC].</summary>
    public DateTime Until => certificate.NotAfter.ToUniversalTime();

    /// <summary>Its certificate and key, to be kept where nobody else reads [PKCS #12].</summary>
    public byte[] Secret => certificate.Export(X509ContentType.Pkcs12);

    /// <summary>Makes one.</summary>
    public static ShopAuthority New(IReadOnlyList<ServedName> names, DateTimeOffset now)
    {
        using var key = ECDsa.Create(ECCurve.NamedCurves.nistP256);
        var name = new X500DistinguishedNameBuilder();
        name.AddCommonName($"CureWatch, this shop's own, made {now.UtcDateTime.ToString("yyyy-MM-dd", CultureInfo.InvariantCulture)}");
        var request = new CertificateRequest(name.Build(), key, HashAlgorithmName.SHA256);
        request.CertificateExtensions.Add(new X509BasicConstraintsExtension(certificateAuthority: true, hasPathLengthConstraint: true, 0, critical: true));
        request.CertificateExtensions.Add(new X509KeyUsageExtension(X509KeyUsageFlags.KeyCertSign | X509KeyUsageFlags.CrlSign, critical: true));
        request.CertificateExtensions.Add(new X509SubjectKeyIdentifierExtension(request.PublicKey, critical: false));
        request.CertificateExtensions.Add(NameLimits.Permitting(names));
        return new ShopAuthority(request.CreateSelfSigned(now - Behind, now.AddYears(Years)));
    }

    /// <summary>One that was kept.</summary>
    /// <exception cref="CryptographicException">It is none.</exception>
    public static ShopAuthority Kept(byte[] secret)
    {
        X509Certificate2 certificate = X509CertificateLoader.LoadPkcs12(secret, null, X509KeyStorageFlags.Exportable);
        return certificate.HasPrivateKey ? new ShopAuthority(certificate) : throw new CryptographicException("it holds no key");
    }

    /// <summary>Vouches for the board; before its own time, from its own beginning on.</summary>
    public X509Certificate2 Issue(IReadOnlyList<ServedName> names, DateTimeOffset now)
    {
        using var key = ECDsa.Create(ECCurve.NamedCurves.nistP256);
        var name = new X500DistinguishedNameBuilder();
        name.AddCommonName(names[^1].Text);
        var request = new CertificateRequest(name.Build(), key, HashAlgorithmName.SHA256);
        request.CertificateExtensions.Add(new X509BasicConstraintsExtension(certificateAuthority: false, hasPathLengthConstraint: false, 0, critical: true));
        request.CertificateExtensions.Add(new X509KeyUsageExtension(X509KeyUsageFlags.DigitalSignature, critical: true));
        request.CertificateExtensions.Add(new X509EnhancedKeyUsageExtension([ServerAuthentication], critical: false));
        request.CertificateExtensions.Add(AlternativeNames(names));
        request.CertificateExtensions.Add(X509AuthorityKeyIdentifierExtension.CreateFromCertificate(certificate, true, includeIssuerAndSerial: false));
        byte[] serial = RandomNumberGenerator.GetBytes(16);
        serial[0] &= 0x7F; // positive: RFC 5280, §4.1.2.2
        using X509Certificate2 issued = request.Create(certificate, Later(now - Behind), Earlier(Later(now) + OfAServer), serial);
        using X509Certificate2 whole = issued.CopyWithPrivateKey(key);
        return X509CertificateLoader.LoadPkcs12(whole.Export(X509ContentType.Pkcs12), null); // a key that is nowhere but in memory cannot serve on every system
    }

    /// <summary>Whether a phone that trusts this authority believes a certificate of the board at an instant.</summary>
    public bool VouchesFor(X509Certificate2 server, DateTimeOffset at)
    {
        using var chain = new X509Chain();
        chain.ChainPolicy.TrustMode = X509ChainTrustMode.CustomRootTrust;
        chain.ChainPolicy.CustomTrustStore.Add(certificate);
        chain.ChainPolicy.RevocationMode = X509RevocationMode.NoCheck; // a shop's own authority has no revocation list
        chain.ChainPolicy.DisableCertificateDownloads = true;
        chain.ChainPolicy.VerificationTime = at.UtcDateTime;
        return chain.Build(server);
    }

    public void Dispose() => certificate.Dispose();

    private static X509Extension AlternativeNames(IReadOnlyList<ServedName> names)
    {
        var alternative = new SubjectAlternativeNameBuilder();
        foreach (ServedName name in names)
        {
            if (name.Address is { } address)
            {
                alternative.AddIpAddress(address);
            }
            else
            {
                alternative.AddDnsName(name.Text);
            }
        }

        return alternative.Build();
    }

    /// <summary>What is issued never holds longer than who issued it.</summary>
    private DateTimeOffset Earlier(DateTimeOffset end) => end.UtcDateTime < Until ? end : new DateTimeOffset(Until, TimeSpan.Zero);

    private DateTimeOffset Later(DateTimeOffset start) => start > From ? start : From;
}
