using System.Net;
using System.Net.Security;
using System.Security.Authentication;
using System.Security.Cryptography.X509Certificates;
using CureWatch.Service.Api;
using CureWatch.Service.Certificates;
using CureWatch.Service.Tests.Api;
using CureWatch.Service.Tests.People;
using Microsoft.AspNetCore.Http;
using Microsoft.Extensions.DependencyInjection;

namespace CureWatch.Service.Tests.Certificates;

/// <summary>The board by HTTPS, as a phone opens it.</summary>
public class HttpsTests
{
    [Fact]
    public async Task PhoneThatTrustsTheShop_OpensTheBoard_AndAnotherDoesNot()
    {
        await using ServedShop shop = await ServedShop.OpenWithPeopleAsync();
        byte[] installed = await shop.Client.GetByteArrayAsync("/certificate/authority.cer", TestContext.Current.CancellationToken);
        using HttpClient phone = Phone(shop, installed);
        using HttpResponseMessage answer = await phone.GetAsync("/health/live", TestContext.Current.CancellationToken);
        Assert.Equal(HttpStatusCode.OK, answer.StatusCode);

        using HttpClient stranger = Phone(shop, null);
        HttpRequestException refused = await Assert.ThrowsAsync<HttpRequestException>(() => stranger.GetAsync("/health/live", TestContext.Current.CancellationToken));
        Assert.IsType<AuthenticationException>(refused.InnerException);
    }

    [Fact]
    public async Task Page_SaysWhatToCompare_AndWhereToGoOn()
    {
        await using ServedShop shop = await ServedShop.OpenWithPeopleAsync();
        string page = await shop.Client.GetStringAsync("/certificate", TestContext.Current.CancellationToken);
        Assert.Contains(shop.Services.GetRequiredService<ShopAuthority>().Fingerprint, page, StringComparison.Ordinal);
        Assert.Contains($"https://127.0.0.1:{shop.SecureAddress!.Port}/bay", page, StringComparison.Ordinal);
        Assert.Contains("/certificate", await shop.Client.GetStringAsync("/set-up", TestContext.Current.CancellationToken), StringComparison.Ordinal);
    }

    [Fact]
    public async Task WhoSignsInByBoth_IsSignedInByBoth()
    {
        await using ServedShop shop = await ServedShop.OpenWithPeopleAsync();
        using Browser plain = await Browser.OfManagerAsync(shop);
        byte[] installed = await shop.Client.GetByteArrayAsync("/certificate/authority.cer", TestContext.Current.CancellationToken);
        using HttpClient secure = Phone(shop, installed, plain.Cookies);
        using var request = new HttpRequestMessage(HttpMethod.Post, "/sign-in")
        {
            Content = new FormUrlEncodedContent(new Dictionary<string, string> { ["name"] = "Maeve", ["pin"] = Browser.ManagersPin }),
        };
        request.Headers.Add("Origin", shop.SecureAddress!.GetLeftPart(UriPartial.Authority));
        using HttpResponseMessage answer = await secure.SendAsync(request, TestContext.Current.CancellationToken);

        Assert.Equal(HttpStatusCode.SeeOther, answer.StatusCode);
        string cookie = Assert.Single(answer.Headers.GetValues("Set-Cookie"), c => c.StartsWith("__Host-curewatch=", StringComparison.Ordinal));
        Assert.Contains("; secure", cookie, StringComparison.Ordinal);
        Assert.Contains("; path=/", cookie, StringComparison.Ordinal);
        using HttpResponseMessage board = await secure.GetAsync("/", TestContext.Current.CancellationToken);
        Assert.Equal(HttpStatusCode.OK, board.StatusCode);
        Assert.True(await plain.IsInAsync());
    }

    [Theory]
    [InlineData("localhost", 443, true, true)]
    [InlineData("localhost", 443, false, false)]
    [InlineData("localhost", 80, true, false)]
    [InlineData("localhost:8443", 8443, true, true)]
    public void HostWithoutAPort_HasTheUsualOneOfItsScheme(string host, int port, bool isHttps, bool isAnswered) =>
        Assert.Equal(isAnswered, new HostRule([]).Allows(new HostString(host), port, isHttps));

    private static HttpClient Phone(ServedShop shop, byte[]? installed, CookieContainer? cookies = null)
    {
        var trust = new X509ChainPolicy
        {
            TrustMode = X509ChainTrustMode.CustomRootTrust,
            RevocationMode = X509RevocationMode.NoCheck,
            DisableCertificateDownloads = true,
            VerificationTime = ServedShop.Start.UtcDateTime,
        };
        if (installed is not null)
        {
            trust.CustomTrustStore.Add(X509CertificateLoader.LoadCertificate(installed));
        }

        return new HttpClient(new SocketsHttpHandler
        {
            AllowAutoRedirect = false,
            CookieContainer = cookies ?? new CookieContainer(),
            SslOptions = new SslClientAuthenticationOptions { CertificateChainPolicy = trust },
        })
        {
            BaseAddress = shop.SecureAddress,
        };
    }
}
