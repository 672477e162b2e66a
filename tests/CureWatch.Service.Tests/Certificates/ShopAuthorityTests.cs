using System.Security.Cryptography;
using System.Security.Cryptography.X509Certificates;
using CureWatch.Service.Certificates;

namespace CureWatch.Service.Tests.Certificates;

/// <summary>The shop's own authority. Whether what it vouches for holds is judged by the chain building of the platform, which knows RFC 5280 and not us.</summary>
public sealed class ShopAuthorityTests : IDisposable
{
    private static readonly DateTimeOffset Now = new(2026, 5, 4, 8, 0, 0, TimeSpan.Zero);

    private readonly IReadOnlyList<ServedName> _names = ServedName.All(["board.example:8443", "192.0.2.7", "BOARD.example"]);
    private readonly ShopAuthority _authority;

    public ShopAuthorityTests() => _authority = ShopAuthority.New(_names, Now);

    public void Dispose() => _authority.Dispose();

    [Theory]
    [InlineData("board.example")]
    [InlineData("192.0.2.7")]
    [InlineData("localhost")]
    [InlineData("127.0.0.1")]
    [InlineData("::1")]
    public void Board_IsBelieved_UnderEachOfItsNames(string name)
    {
        using X509Certificate2 server = _authority.Issue(_names, Now);
        Assert.True(_authority.VouchesFor(server, Now));
        Assert.True(server.MatchesHostname(name));
        Assert.False(server.MatchesHostname("other.example"));
    }

    [Theory]
    [InlineData("other.example")]
    [InlineData("example")]
    [InlineData("198.51.100.1")]
    [InlineData("[2001:db8::1]")]
    public void Authority_CannotVouch_ForWhatIsNotTheShops(string stranger)
    {
        using X509Certificate2 server = _authority.Issue(ServedName.All([stranger]), Now);
        Assert.False(_authority.VouchesFor(server, Now));
    }

    [Theory]
    [InlineData("10.3.4.5")]
    [InlineData("172.31.255.1")]
    [InlineData("192.168.7.20")]
    [InlineData("[fd12::7]")]
    [InlineData("bay-computer.local")]
    public void Authority_StillVouches_WhenTheBoardMovesWithinAPrivateNetwork(string moved)
    {
        using X509Certificate2 server = _authority.Issue(ServedName.All([moved]), Now);
        Assert.True(_authority.VouchesFor(server, Now));
    }

    [Fact]
    public void Authority_OfAnother_IsNotThis()
    {
        using var other = ShopAuthority.New(_names, Now);
        using X509Certificate2 server = other.Issue(_names, Now);
        Assert.False(_authority.VouchesFor(server, Now));
    }

    // 398 days: CA/Browser Forum, ballot SC22, from memory. RFC 5280, §4.1.2.2: a serial number is positive and no longer than 20 octets.
    [Fact]
    public void Certificate_HoldsNoLongerThanBrowsersTake_NorThanTheAuthority()
    {
        using X509Certificate2 server = _authority.Issue(_names, Now);
        Assert.InRange(server.NotAfter - server.NotBefore, TimeSpan.FromDays(300), TimeSpan.FromDays(398));
        Assert.InRange(server.SerialNumberBytes.Length, 1, 20);
        Assert.True(server.SerialNumberBytes.Span[0] < 0x80);

        using X509Certificate2 late = _authority.Issue(_names, Now.AddYears(10).AddDays(-20));
        Assert.Equal(_authority.Until, late.NotAfter.ToUniversalTime());
        Assert.True(_authority.VouchesFor(late, Now.AddYears(10).AddDays(-1)));
        Assert.False(_authority.VouchesFor(late, Now.AddYears(10).AddDays(1)));
    }

    [Fact]
    public void Fingerprint_IsTheHashOfWhatThePhoneInstalls() => Assert.Equal(
        Convert.ToHexString(SHA256.HashData(_authority.Certificate)), _authority.Fingerprint.Replace(" ", "", StringComparison.Ordinal));

    [Fact]
    public void WhatIsInstalled_HoldsNoKey()
    {
        using X509Certificate2 installed = X509CertificateLoader.LoadCertificate(_authority.Certificate);
        Assert.False(installed.HasPrivateKey);
        Assert.Contains("2026-05-04", installed.Subject, StringComparison.Ordinal);
        Assert.Equal(Now.AddYears(10).UtcDateTime, installed.NotAfter.ToUniversalTime());
    }
}
