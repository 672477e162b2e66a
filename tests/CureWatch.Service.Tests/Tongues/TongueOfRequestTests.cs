using System.Net;
using CureWatch.Service.Tests.Api;
using CureWatch.Service.Tests.People;

namespace CureWatch.Service.Tests.Tongues;

public class TongueOfRequestTests
{
    private const string German = "<html lang=\"de\"", English = "<html lang=\"en\"";

    [Theory]
    [InlineData("de-DE,de;q=0.9,en;q=0.8", German)]
    [InlineData("en-GB,de;q=0.9", English)]
    [InlineData("fr,de;q=0.5,en;q=0.4", German)]
    [InlineData("de;q=0,fr", English)]
    [InlineData("no language at all;;q=x", English)]
    public async Task Page_IsInTheLanguageABrowserAsksFor(string asked, string said)
    {
        await using ServedShop shop = await ServedShop.OpenAsync();
        using var request = new HttpRequestMessage(HttpMethod.Get, new Uri(shop.Address, "/"));
        request.Headers.TryAddWithoutValidation("Accept-Language", asked);
        using var client = new HttpClient();
        using HttpResponseMessage answer = await client.SendAsync(request, TestContext.Current.CancellationToken);
        Assert.Contains(said, await answer.Content.ReadAsStringAsync(TestContext.Current.CancellationToken), StringComparison.Ordinal);
    }

    [Fact]
    public async Task Choice_OfABrowser_IsKeptThere_EachByItself()
    {
        await using ServedShop shop = await ServedShop.OpenAsync();
        using var browser = new Browser(shop);
        using (HttpResponseMessage answer = await browser.SendAsync("/tongue", ("language", "de"), ("then", "/start?bay=bay-1")))
        {
            Assert.Equal((HttpStatusCode.SeeOther, "/start?bay=bay-1"), (answer.StatusCode, answer.Headers.Location?.ToString()));
        }

        using (await browser.SendAsync("/tongue", ("degrees", "F"), ("then", "/")))
        {
            string page = WebUtility.HtmlDecode(await browser.TextAsync("/handbook"));
            Assert.Contains(German, page, StringComparison.Ordinal);
            Assert.Contains("<span aria-current=\"true\">°F</span>", page, StringComparison.Ordinal);
        }

        using var other = new Browser(shop);
        Assert.Contains(English, await other.TextAsync("/"), StringComparison.Ordinal);
    }

    [Fact]
    public async Task Choice_OfAPerson_GoesWithThem_AndStaysWhenTheyGetANewPin()
    {
        await using ServedShop shop = await ServedShop.OpenWithPeopleAsync();
        using Browser manager = await Browser.OfManagerAsync(shop);
        using Browser technician = await Browser.OfTechnicianAsync(shop, manager);
        using (await technician.SendAsync("/tongue", ("language", "de"), ("degrees", "F")))
        using (await manager.SendAsync("/people/pin", ("name", "Tom"), ("pin", "926415")))
        {
            using var elsewhere = new Browser(shop);
            Assert.Contains(English, await elsewhere.TextAsync("/sign-in"), StringComparison.Ordinal);
            await elsewhere.SignInAsync("Tom", "926415");
            string page = WebUtility.HtmlDecode(await elsewhere.TextAsync("/"));
            Assert.Contains(German, page, StringComparison.Ordinal);
            Assert.Contains("<span aria-current=\"true\">°F</span>", page, StringComparison.Ordinal);
        }

        Assert.Contains(English, await manager.TextAsync("/"), StringComparison.Ordinal);
    }

    [Fact]
    public async Task Choice_OfWhatThereIsNot_ChangesNothing_AndLeadsNowhereElse()
    {
        await using ServedShop shop = await ServedShop.OpenAsync();
        using var browser = new Browser(shop);
        using HttpResponseMessage answer = await browser.SendAsync("/tongue", ("language", "xx"), ("degrees", "K"), ("then", "https://elsewhere.example/"));
        Assert.Equal("/", answer.Headers.Location?.ToString());
        Assert.Contains(English, await browser.TextAsync("/"), StringComparison.Ordinal);
    }
}
