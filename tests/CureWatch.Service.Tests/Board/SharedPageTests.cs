using System.IO.Compression;
using System.Text;
using CureWatch.Service.Tests.Api;
using CureWatch.Service.Tests.People;
using CureWatch.Service.Tests.Phone;

namespace CureWatch.Service.Tests.Board;

/// <summary>Boards share a page where they would see the same, and nothing where they would not.</summary>
public class SharedPageTests
{
    [Theory]
    [InlineData("/")]
    [InlineData("/wall")]
    [InlineData("/wall/bay-1")]
    public async Task Page_IsInTheLanguageOfWhoeverAsks_HoweverManyAskAtOnce(string path)
    {
        await using ServedShop shop = await Thumb.OpenWithCarAsync();
        string[] languages = [.. Enumerable.Range(0, 12).Select(i => i % 3 == 0 ? "de" : "en")];
        string[] pages = await Task.WhenAll(languages.Select(async language =>
        {
            using HttpResponseMessage answer = await shop.SendAsync(HttpMethod.Get, path, null, ("Accept-Language", language));
            return await answer.Content.ReadAsStringAsync(TestContext.Current.CancellationToken);
        }));
        Assert.Equal(languages, pages.Select(p => p.Split("<html lang=\"")[1][..2]));
        Assert.Equal(2, pages.Distinct().Count());
    }

    [Fact]
    public async Task Page_HasTheNameOfWhoeverAsks_AndNoOtherAddress()
    {
        await using ServedShop shop = await ServedShop.OpenWithPeopleAsync();
        await shop.PassAsync(1);
        using Browser manager = await Browser.OfManagerAsync(shop);
        using Browser technician = await Browser.OfTechnicianAsync(shop, manager);
        string[] pages = await Task.WhenAll(manager.TextAsync("/"), technician.TextAsync("/"), manager.TextAsync("/?x=1"));
        Assert.Contains(">Maeve<", pages[0], StringComparison.Ordinal);
        Assert.Contains(">Tom<", pages[1], StringComparison.Ordinal);
        Assert.DoesNotContain("Maeve", pages[1], StringComparison.Ordinal);
        Assert.DoesNotContain("/people", pages[1], StringComparison.Ordinal);
        Assert.Contains("value=\"/?x=1\"", pages[2], StringComparison.Ordinal);
    }

    [Fact]
    public async Task Page_IsCompressedOnce_ForWhoeverTakesItSo()
    {
        await using ServedShop shop = await Thumb.OpenWithCarAsync();
        using HttpResponseMessage packed = await shop.SendAsync(HttpMethod.Get, "/", null, ("Accept-Encoding", "gzip, deflate, br"));
        Assert.Equal(["br"], packed.Content.Headers.ContentEncoding);
        await using var brotli = new BrotliStream(await packed.Content.ReadAsStreamAsync(TestContext.Current.CancellationToken), CompressionMode.Decompress);
        using var reader = new StreamReader(brotli, Encoding.UTF8);
        Assert.Equal(await shop.TextAsync("/"), await reader.ReadToEndAsync(TestContext.Current.CancellationToken));
        using HttpResponseMessage plain = await shop.SendAsync(HttpMethod.Get, "/", null, ("Accept-Encoding", "br;q=0"));
        Assert.Empty(plain.Content.Headers.ContentEncoding);
    }

    [Fact]
    public async Task Page_IsNew_WhenSomethingWasTold()
    {
        await using ServedShop shop = await Thumb.OpenWithCarAsync();
        string before = await shop.WordsAsync("/");
        await shop.TellAsync("panel-wiped");
        Assert.NotEqual(before, await shop.WordsAsync("/"));
    }
}
