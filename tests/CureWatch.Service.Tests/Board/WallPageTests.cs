using System.Net;
using System.Text.RegularExpressions;
using System.Xml.Linq;
using CureWatch.Service.Tests.Api;

namespace CureWatch.Service.Tests.Board;

public class WallPageTests
{
    [Fact]
    public async Task Wall_ShowsEveryBay_WithSpreadCourseAndWhereItIsHeading()
    {
        await using ServedShop shop = await ServedShop.OpenAsync();
        await shop.PassAsync(1, panelC: 11);
        string words = await shop.WordsAsync("/wall");
        Assert.Contains("1.7 K spread", words, StringComparison.Ordinal);
        Assert.Matches(@"the coldest panel comes nearest to the dew point (now|in [0-9.]+ h), likely -?[0-9.]+ K from it", words);
        Assert.Contains("No car here.", words, StringComparison.Ordinal);
        Assert.Equal(2, Charts(await shop.TextAsync("/wall")).Count);
    }

    [Fact]
    public async Task Wall_OfOneBay_ShowsThatBay_AndOfNoneThereIsNone()
    {
        await using ServedShop shop = await ServedShop.OpenAsync();
        await shop.PassAsync(1);
        Assert.Single(Charts(await shop.TextAsync("/wall/bay-2")));
        using HttpResponseMessage answer = await shop.SendAsync(HttpMethod.Get, "/wall/bay-9");
        Assert.Equal(HttpStatusCode.NotFound, answer.StatusCode);
    }

    [Fact]
    public async Task Chart_HasNoStyleOfItsOwn_SaysWhatItShows_AndSharesNoId()
    {
        await using ServedShop shop = await ServedShop.OpenAsync();
        await shop.PassAsync(1, panelC: 11);
        IReadOnlyList<XElement> charts = Charts(await shop.TextAsync("/wall"));
        Assert.All(charts.SelectMany(c => c.DescendantsAndSelf()), e => Assert.Null(e.Attribute("style")));
        Assert.All(charts, c => Assert.Equal(2, c.Elements().Count(e => e.Name.LocalName is "title" or "desc" && e.Value.Length > 0)));
        string[] ids = [.. charts.SelectMany(c => c.Descendants()).Select(e => e.Attribute("id")?.Value).OfType<string>()];
        Assert.Equal(ids.Length, ids.Distinct().Count());
        Assert.All(charts.SelectMany(c => c.Descendants()).Select(e => e.Attribute("clip-path")?.Value).OfType<string>(), u => Assert.Contains(u["url(#".Length..^1], ids));
    }

    private static IReadOnlyList<XElement> Charts(string page) =>
        [.. Regex.Matches(page, "<svg[^>]*class=\"chart\".*?</svg>", RegexOptions.Singleline).Select(m => XElement.Parse(m.Value))];
}
