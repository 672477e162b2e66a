using System.Net;
using System.Text.RegularExpressions;
using CureWatch.Service.Tests.Api;
using CureWatch.Service.Tongues;

namespace CureWatch.Browser.Tests;

/// <summary>What pages say in German, held against what they say in English at the same instant.</summary>
public partial class LanguageTests
{
    /// <summary>What is called so in any language: the shop's own names, and what stands for itself.</summary>
    private static readonly string[] Names =
    [
        "CureWatch", "English", "Deutsch", "grey estate", "grey-estate", "Europe/", "bonnet", "wheels", "bay-", "probe", "demo", "http", "127.0.0.1", "Ina", "UTC", "min",
        "test-shop", "Paint <b>coat</b>", "quick", "Mind the vapour.",
    ];

    [Fact]
    public async Task EveryPage_InGerman_SaysNothingInEnglish()
    {
        await using ServedShop shop = await ShopAtWork.OpenAsync();
        using HttpClient english = Client(shop, "en"), german = Client(shop, "de");
        var left = new SortedSet<string>(StringComparer.Ordinal);
        foreach (string path in EveryPage.Of(shop, ShopAtWork.Job).Where(p => !p.StartsWith("/handbook", StringComparison.Ordinal)).Append("/nowhere").Append("/jobs/nobody"))
        {
            HashSet<string> inEnglish = [.. await TextsAsync(english, path)];
            left.UnionWith((await TextsAsync(german, path)).Where(inEnglish.Contains).Where(IsEnglish).Select(text => $"{path}: {text}"));
        }

        Assert.True(left.Count == 0, string.Join('\n', left));
    }

    [Fact]
    public async Task EveryPage_InFahrenheit_ShowsNoCelsius()
    {
        await using ServedShop shop = await ShopAtWork.OpenAsync();
        using HttpClient browser = Client(shop, "en");
        using var chosen = new FormUrlEncodedContent([KeyValuePair.Create("degrees", "F"), KeyValuePair.Create("then", "/")]);
        using HttpResponseMessage answer = await browser.PostAsync("/tongue", chosen, TestContext.Current.CancellationToken);
        foreach (string path in EveryPage.Of(shop, ShopAtWork.Job).Where(p => !p.StartsWith("/handbook", StringComparison.Ordinal)))
        {
            Assert.DoesNotContain(await TextsAsync(browser, path), text => text.Contains(" °C", StringComparison.Ordinal) || text.EndsWith(" K", StringComparison.Ordinal));
        }

        Assert.Contains("°F", string.Concat(await TextsAsync(browser, "/wall")), StringComparison.Ordinal);
    }

    private static bool IsEnglish(string text) => !text.StartsWith("http://", StringComparison.Ordinal)
        && Words().IsMatch(Names.Aggregate(text, (rest, name) => rest.Replace(name, "", StringComparison.Ordinal)))
        && !(Language.German.Book.Phrases.TryGetValue(text, out string? same) && same == text);

    private static HttpClient Client(ServedShop shop, string language)
    {
        var client = new HttpClient { BaseAddress = shop.Address };
        client.DefaultRequestHeaders.AcceptLanguage.ParseAdd(language);
        client.DefaultRequestHeaders.Add("Origin", shop.Address.GetLeftPart(UriPartial.Authority));
        return client;
    }

    private static async Task<IReadOnlyList<string>> TextsAsync(HttpClient client, string path)
    {
        using HttpResponseMessage answer = await client.GetAsync(path, TestContext.Current.CancellationToken);
        return TextsIn(await answer.Content.ReadAsStringAsync(TestContext.Current.CancellationToken));
    }

    /// <summary>What somebody reads, or has read to them.</summary>
    private static IReadOnlyList<string> TextsIn(string html) =>
    [
        .. Between().Matches(html).Concat(Attributes().Matches(html)).Select(m => WebUtility.HtmlDecode(m.Groups[1].Value).Trim()).Where(t => t.Length > 0),
    ];

    [GeneratedRegex(">([^<]+)<")]
    private static partial Regex Between();

    [GeneratedRegex("(?:aria-label|title|alt|placeholder|data-late|data-coat|data-sending|data-kept|data-large|data-unheard)=\"([^\"]+)\"")]
    private static partial Regex Attributes();

    [GeneratedRegex("[A-Za-z]{3,}")]
    private static partial Regex Words();
}
