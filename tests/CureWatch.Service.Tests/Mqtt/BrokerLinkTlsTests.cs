using System.Net;
using System.Security.Cryptography;
using System.Security.Cryptography.X509Certificates;
using CureWatch.Service.Settings;

namespace CureWatch.Service.Tests.Mqtt;

/// <summary>Encrypted, with an authority of the shop's own.</summary>
public class BrokerLinkTlsTests
{
    private const string Tls = """
        cafile {0}/ca.pem
        certfile {0}/broker.pem
        keyfile {0}/broker.key
        allow_anonymous true
        """;

    [Fact]
    public async Task Broker_OfTheShopsOwnAuthority_IsTrusted_AndOneOfAnotherIsNot()
    {
        await using Mosquitto broker = await Mosquitto.StartAsync(Tls, Issue);
        await using Mosquitto other = await Mosquitto.StartAsync(Tls, Issue);
        string authority = Path.Combine(broker.Folder, "ca.pem");

        await using LinkRig trusted = await LinkRig.ConnectAsync(LinkRig.At(broker.Port) with { Tls = true, CertificateAuthorityFile = authority });
        await using LinkRig strange = LinkRig.Begin(LinkRig.At(other.Port) with { Tls = true, CertificateAuthorityFile = authority });
        await using LinkRig unnamed = LinkRig.Begin(LinkRig.At(other.Port) with { Tls = true });

        await Eventually.TrueAsync(() => strange.Link.Trouble is not (null or "not connected yet"), "the refusal");
        await Eventually.TrueAsync(() => unnamed.Link.Trouble is not (null or "not connected yet"), "the refusal");
        Assert.Equal((1, 0, 0), (trusted.Openings, strange.Openings, unnamed.Openings));
    }

    [Fact]
    public async Task AuthorityFile_WithoutACertificate_IsSaid()
    {
        using var written = new Settings.Written();
        ExternalBroker broker = LinkRig.At(1) with { Tls = true, CertificateAuthorityFile = written.File("ca.pem", "no certificate") };
        await using LinkRig rig = LinkRig.Begin(broker);
        await Eventually.TrueAsync(() => rig.Link.Trouble?.Contains("holds no certificate", StringComparison.Ordinal) == true, "the reason");
    }

    private static void Issue(string folder)
    {
        DateTimeOffset from = TimeProvider.System.GetUtcNow().AddDays(-1), to = from.AddYears(1);
        using var authorityKey = ECDsa.Create(ECCurve.NamedCurves.nistP256);
        var authority = new CertificateRequest("CN=Test authority", authorityKey, HashAlgorithmName.SHA256);
        authority.CertificateExtensions.Add(new X509BasicConstraintsExtension(certificateAuthority: true, false, 0, critical: true));
        authority.CertificateExtensions.Add(new X509SubjectKeyIdentifierExtension(authority.PublicKey, critical: false));
        using X509Certificate2 signer = authority.CreateSelfSigned(from, to);

        using var key = ECDsa.Create(ECCurve.NamedCurves.nistP256);
        var leaf = new CertificateRequest("CN=127.0.0.1", key, HashAlgorithmName.SHA256);
        var names = new SubjectAlternativeNameBuilder();
        names.AddIpAddress(IPAddress.Loopback);
        leaf.CertificateExtensions.Add(names.Build());
        using X509Certificate2 issued = leaf.Create(signer, from, to, [1, 2, 3, 4]);

        File.WriteAllText(Path.Combine(folder, "ca.pem"), signer.ExportCertificatePem());
        File.WriteAllText(Path.Combine(folder, "broker.pem"), issued.ExportCertificatePem());
        File.WriteAllText(Path.Combine(folder, "broker.key"), key.ExportPkcs8PrivateKeyPem());
    }
}
