using System.Net;
using System.Text.RegularExpressions;
using CureWatch.Service.Handbook;
using CureWatch.Service.Tests.Api;
using CureWatch.Service.Tests.People;
using CureWatch.Service.Tongues;
using Microsoft.AspNetCore.Routing;
using Microsoft.Extensions.DependencyInjection;

namespace CureWatch.Service.Tests.Handbook;

public partial class HandbookPagesTests
{
    private static readonly string[] NoScreens = ["/api", "/assets", "/health", "/openapi", "/handbook"];

    // The list of screens comes from the service itself, so that a new one cannot go without.
    [Fact]
    public async Task EveryScreen_LeadsToItsPageOfTheHandbook()
    {
        await using ServedShop shop = await ServedShop.OpenWithPeopleAsync();
        using var nobody = new Browser(shop);
        var screens = new List<(string Path, string Text)> { ("/set-up", await nobody.TextAsync("/set-up")) };
        using Browser manager = await Browser.OfManagerAsync(shop);
        screens.Add(("/sign-in", await nobody.TextAsync("/sign-in")));
        screens.Add(("/pair", await nobody.TextAsync("/pair")));
        string code = screens[^1].Text.Split("/pair/")[1].Split('<')[0];
        await shop.PassAsync(1);
        await StartCarAsync(manager);
        string job = (await manager.TextAsync("/")).Split("href=\"/jobs/")[1].Split('"')[0];
        foreach (string path in ScreensOf(shop).Select(p => p.Replace("{bay}", "bay-1").Replace("{job}", job).Replace("{code}", code)))
        {
            using HttpResponseMessage answer = await manager.GetAsync(path);
            if (answer.StatusCode == HttpStatusCode.OK && answer.Content.Headers.ContentType?.MediaType == "text/html")
            {
                screens.Add((path, await answer.Content.ReadAsStringAsync(TestContext.Current.CancellationToken)));
            }
        }

        Assert.True(screens.Count > 18, string.Join(' ', screens.Select(s => s.Path)));
        Assert.DoesNotContain(screens, s => s.Path.Contains('{', StringComparison.Ordinal));
        foreach ((string path, string text) in screens)
        {
            Match link = Help().Match(text);
            Assert.True(link.Success, $"{path} has no link");
            Assert.True(link.Groups[2].Value.Contains("Handbook", StringComparison.Ordinal), $"{path}: {link.Value}");
            string[] target = link.Groups[1].Value.Split('#');
            string page = await nobody.TextAsync(target[0]);
            Assert.True(target.Length == 1 || page.Contains($"id=\"{target[1]}\"", StringComparison.Ordinal), $"{path} leads to {link.Groups[1].Value}");
        }
    }

    [Fact]
    public async Task Handbook_IsOpenToWhoeverIsNotIn_AndHasNothingOfTheShop()
    {
        await using ServedShop shop = await ServedShop.OpenWithPeopleAsync();
        using Browser manager = await Browser.OfManagerAsync(shop);
        using var nobody = new Browser(shop);
        await shop.PassAsync(1);
        foreach (string path in HandbookText.In(Language.English).InOrder.Select(s => s.Address).Append("/handbook").Append("/handbook?q=lamp"))
        {
            string page = await nobody.TextAsync(path);
            Assert.DoesNotContain("test-shop", page, StringComparison.Ordinal);
            Assert.DoesNotContain("Maeve", page, StringComparison.Ordinal);
        }
    }

    [Fact]
    public async Task Search_SaysWhatItFound_AndPlainlyWhereItFoundNothing()
    {
        await using ServedShop shop = await ServedShop.OpenAsync();
        string found = await shop.TextAsync("/handbook?q=CALIBRATE");
        Assert.Contains("href=\"/handbook/calibrating\"", found, StringComparison.Ordinal);
        Assert.Contains("<mark>", found, StringComparison.Ordinal);
        string none = WebUtility.HtmlDecode(await shop.TextAsync("/handbook?q=unicorn"));
        Assert.Contains("<h1>Nothing in the handbook has “unicorn”</h1>", none, StringComparison.Ordinal);
        Assert.Contains("Type a word to find", await shop.TextAsync("/handbook?q="), StringComparison.Ordinal);
        Assert.Contains("Type a word to find", await shop.TextAsync("/handbook?q=%20%3F"), StringComparison.Ordinal);
    }

    [Fact]
    public async Task WhoChoseGerman_ReadsAndSearchesInGerman()
    {
        await using ServedShop shop = await ServedShop.OpenAsync();
        using var browser = new Browser(shop);
        using (await browser.SendAsync("/tongue", ("language", "de")))
        {
            string lamps = WebUtility.HtmlDecode(await browser.TextAsync("/handbook/lamps"));
            Assert.Contains("<h1>Strahler und Hitzegrenzen</h1>", lamps, StringComparison.Ordinal);
            Assert.Contains("<h2 id=\"heat-limits\">Hitzegrenzen</h2>", lamps, StringComparison.Ordinal);
            Assert.Contains("Inhalt</a>", lamps, StringComparison.Ordinal);
            string found = WebUtility.HtmlDecode(await browser.TextAsync("/handbook?q=Fuehler"));
            Assert.Contains("Stellen haben „Fuehler“</h1>", found, StringComparison.Ordinal);
            Assert.Contains("<mark>Fühler</mark>", found, StringComparison.Ordinal);
            Assert.Contains("Keine solche Seite", WebUtility.HtmlDecode(await TextOfMissingAsync(browser)), StringComparison.Ordinal);
        }

        Assert.Contains("<h1>Lamps and heat limits</h1>", await shop.TextAsync("/handbook/lamps"), StringComparison.Ordinal);
    }

    [Theory]
    [InlineData("<script>alert(1)</script>")]
    [InlineData("\"><img src=x onerror=alert(1)>")]
    [InlineData("' onfocus='alert(1)' autofocus='")]
    [InlineData("lamp</title><script>alert(1)</script>")]
    [InlineData("&lt;script&gt;")]
    public async Task HostileQuery_IsShownAndNotTaken(string typed)
    {
        await using ServedShop shop = await ServedShop.OpenAsync();
        string page = await shop.TextAsync($"/handbook?q={Uri.EscapeDataString(typed)}");
        Assert.DoesNotContain("<script>alert", page, StringComparison.Ordinal);
        Assert.DoesNotContain("<img src=x", page, StringComparison.Ordinal);
        Match box = Box().Match(page);
        Assert.Equal(typed, WebUtility.HtmlDecode(box.Groups[1].Value));
    }

    [Theory]
    [InlineData("/handbook/nowhere")]
    [InlineData("/handbook/contents")]
    [InlineData("/handbook/..%2Fboard.css")]
    [InlineData("/handbook/handbook%2Fwall.md")]
    public async Task WhatIsNoPage_IsNotFound(string path)
    {
        await using ServedShop shop = await ServedShop.OpenAsync();
        using HttpResponseMessage answer = await shop.SendAsync(HttpMethod.Get, path);
        Assert.Equal(HttpStatusCode.NotFound, answer.StatusCode);
    }

    [Fact]
    public async Task EveryPicture_IsServed()
    {
        await using ServedShop shop = await ServedShop.OpenAsync();
        string[] pictures = [.. HandbookText.In(Language.English).InOrder.SelectMany(s => Source().Matches(s.Html).Select(m => m.Groups[1].Value))];
        Assert.NotEmpty(pictures);
        foreach (string picture in pictures)
        {
            using HttpResponseMessage answer = await shop.SendAsync(HttpMethod.Get, picture);
            Assert.Equal((HttpStatusCode.OK, "image/png"), (answer.StatusCode, answer.Content.Headers.ContentType?.MediaType));
        }
    }

    private static async Task<string> TextOfMissingAsync(Browser browser)
    {
        using HttpResponseMessage answer = await browser.GetAsync("/handbook/nirgends");
        Assert.Equal(HttpStatusCode.NotFound, answer.StatusCode);
        return await answer.Content.ReadAsStringAsync(TestContext.Current.CancellationToken);
    }

    private static async Task StartCarAsync(Browser manager)
    {
        using HttpResponseMessage started = await manager.SendAsync(
            "/start", ("number", "1"), ("car", "grey estate"), ("bay", "bay-1"), ("surface", "bonnet"), ("material", "steel"), ("over", ""), ("place", "outside"),
            ("product", "paint"), ("layers", "1"), ("then", ""), ("thenLayers", "1"), ("sections", "1"));
        Assert.Equal(HttpStatusCode.SeeOther, started.StatusCode);
    }

    private static IEnumerable<string> ScreensOf(ServedShop shop) => shop.Services.GetRequiredService<EndpointDataSource>().Endpoints.OfType<RouteEndpoint>()
        .Where(e => e.Metadata.GetMetadata<HttpMethodMetadata>()?.HttpMethods.Contains("GET") == true)
        .Select(e => e.RoutePattern.RawText!).Where(p => !NoScreens.Any(no => p.StartsWith(no, StringComparison.Ordinal)));

    [GeneratedRegex("<a class=\"button help\" href=\"(/handbook[^\"]*)\">(.*?)</a>")]
    private static partial Regex Help();

    [GeneratedRegex("name=\"q\"[^>]* value=\"([^\"]*)\"")]
    private static partial Regex Box();

    [GeneratedRegex("<img src=\"([^\"]*)\"")]
    private static partial Regex Source();
}
