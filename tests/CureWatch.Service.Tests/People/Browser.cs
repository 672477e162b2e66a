using System.Net;
using CureWatch.Service.People;
using CureWatch.Service.Tests.Api;
using Microsoft.Extensions.DependencyInjection;

namespace CureWatch.Service.Tests.People;

/// <summary>A browser with cookies of its own at a served shop.</summary>
internal sealed class Browser : IDisposable
{
    public const string ManagersPin = "73915026";
    public const string TechniciansPin = "482615";

    private readonly HttpClient _client;
    private readonly string _origin;

    public Browser(ServedShop shop)
    {
        _client = new HttpClient(new SocketsHttpHandler { AllowAutoRedirect = false, CookieContainer = Cookies }) { BaseAddress = shop.Address };
        _origin = shop.Address.GetLeftPart(UriPartial.Authority);
    }

    public CookieContainer Cookies { get; } = new();

    /// <summary>A browser in which the first manager, Maeve, was made.</summary>
    public static async Task<Browser> OfManagerAsync(ServedShop shop)
    {
        var browser = new Browser(shop);
        string code = shop.Services.GetRequiredService<SetUpCode>().Text;
        using HttpResponseMessage answer = await browser.SendAsync("/set-up", ("code", code), ("name", "Maeve"), ("pin", ManagersPin));
        Assert.Equal("/people", answer.Headers.Location?.ToString());
        return browser;
    }

    /// <summary>A browser in which a technician, Tom, is signed in, whom the manager put on the list.</summary>
    public static async Task<Browser> OfTechnicianAsync(ServedShop shop, Browser manager)
    {
        using HttpResponseMessage added = await manager.SendAsync("/people", ("name", "Tom"), ("role", "technician"), ("pin", TechniciansPin));
        Assert.Equal(HttpStatusCode.SeeOther, added.StatusCode);
        var browser = new Browser(shop);
        Assert.Equal(HttpStatusCode.SeeOther, await browser.SignInAsync("Tom", TechniciansPin));
        return browser;
    }

    /// <summary>A screen that the manager let in.</summary>
    public static async Task<Browser> OfScreenAsync(ServedShop shop, Browser manager)
    {
        var browser = new Browser(shop);
        string page = await browser.TextAsync("/pair");
        string code = page.Split("/pair/")[1].Split('<')[0];
        using HttpResponseMessage letIn = await manager.SendAsync($"/pair/{code}", ("name", "wall"));
        Assert.Equal("/people", letIn.Headers.Location?.ToString());
        using HttpResponseMessage answer = await browser.GetAsync("/pair");
        Assert.Equal("/wall", answer.Headers.Location?.ToString());
        return browser;
    }

    public Task<HttpResponseMessage> GetAsync(string path) => _client.GetAsync(path, HttpCompletionOption.ResponseHeadersRead, TestContext.Current.CancellationToken);

    public Task<string> TextAsync(string path) => _client.GetStringAsync(path, TestContext.Current.CancellationToken);

    public Task<HttpResponseMessage> SendAsync(string path, params (string Name, string Value)[] form) =>
        SendAsync(HttpMethod.Post, path, new FormUrlEncodedContent(form.ToDictionary(f => f.Name, f => f.Value)));

    public async Task<HttpResponseMessage> SendAsync(HttpMethod method, string path, HttpContent? content = null)
    {
        using var request = new HttpRequestMessage(method, path) { Content = content };
        request.Headers.Add("Origin", _origin);
        return await _client.SendAsync(request, HttpCompletionOption.ResponseHeadersRead, TestContext.Current.CancellationToken);
    }

    public async Task<HttpStatusCode> SignInAsync(string name, string pin)
    {
        using HttpResponseMessage answer = await SendAsync("/sign-in", ("name", name), ("pin", pin));
        return answer.StatusCode;
    }

    /// <summary>Whether it is let see the board.</summary>
    public async Task<bool> IsInAsync()
    {
        using HttpResponseMessage answer = await GetAsync("/");
        return answer.StatusCode == HttpStatusCode.OK;
    }

    public void Dispose() => _client.Dispose();
}
