using System.Net;
using System.Text.RegularExpressions;
using System.Xml.Linq;
using CureWatch.Service.Tests.Api;
using CureWatch.Warnings;

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

    // Letters as large as the screen do not grow when a browser magnifies them (WCAG 2.2, 1.4.4).
    [Fact]
    public async Task Wall_AskedForPlain_HasLettersThatGrow_AndLeadsBack()
    {
        await using ServedShop shop = await ServedShop.OpenAsync();
        await shop.PassAsync(1);
        string set = await shop.TextAsync("/wall/bay-2"), plain = await shop.TextAsync("/wall/bay-2?plain");
        Assert.Contains("wall-set", set, StringComparison.Ordinal);
        Assert.Contains("href=\"/wall/bay-2?plain\"", set, StringComparison.Ordinal);
        Assert.DoesNotContain("wall-set", plain, StringComparison.Ordinal);
        Assert.Contains("href=\"/wall/bay-2\"", plain, StringComparison.Ordinal);
    }

    [Fact]
    public async Task Wall_SaysOfACar_WhatIsNext_HowLongThatHas_AndWhenItLeaves()
    {
        await using ServedShop shop = await AtWorkAsync(ServedShop.OpenAsync());
        string words = await shop.WordsAsync("/wall");
        Assert.Matches(@"bonnet, section 1: look now, level by [0-9:]+ \([0-9:]+ [0-9:]+ |bonnet, section 1: look now, level by ([0-9:]+) \1 \(in [0-9]+ min\)", words);
        Assert.Matches("(Leaves from [A-Z][a-z]{2} [0-9:]+|No time to leave can be said yet)", words);
        Assert.DoesNotContain("Before you go", words, StringComparison.Ordinal);
    }

    [Fact]
    public async Task Wall_AtLockUp_SaysWhatStays_WhatIsDoneBefore_AndHowTheNightLooks()
    {
        await using ServedShop shop = await AtWorkAsync(ServedShop.OpenThreeHoursADayAsync());
        Assert.DoesNotContain("Lock-up", await shop.WordsAsync("/wall"), StringComparison.Ordinal);
        shop.Clock.Advance(TimeSpan.FromHours(2));
        await shop.PassAsync(1);
        string words = await shop.WordsAsync("/wall");
        Assert.Matches(@"Lock-up at 12:00 \(in [0-9]+ min\)", words);
        Assert.Matches("Stays, dry(, until|: nobody can tell)", words);
        Assert.Matches("Before you go: bonnet, section 1: Re-wet and level", words);
        Assert.Contains("Tonight: grey estate", words, StringComparison.Ordinal);
        shop.Clock.Advance(TimeSpan.FromHours(1));
        Assert.DoesNotContain("Lock-up", await shop.WordsAsync("/wall"), StringComparison.Ordinal);
    }

    // In the store it was on no wall at all, and nobody was told to leave it where it stands.
    [Fact]
    public async Task Wall_SaysOfACarInNoBay_WhatIsNext_AndAtLockUpThatItStays()
    {
        await using ServedShop shop = await AtWorkAsync(ServedShop.OpenThreeHoursADayAsync());
        Assert.DoesNotContain("Not in a bay", await shop.WordsAsync("/wall"), StringComparison.Ordinal);
        await shop.PostAsync(
            "/api/v1/jobs/grey-estate/taps",
            $$"""{"id":"moved","at":"{{shop.Clock.GetUtcNow():yyyy-MM-ddTHH:mm:ssZ}}","did":"moved","toBay":"store"}""",
            HttpStatusCode.Created);
        Assert.Matches("Not in a bay grey estate bonnet, section 1: look now", await shop.WordsAsync("/wall"));
        Assert.Contains("Not in a bay grey estate", await shop.WordsAsync("/wall/bay-1"), StringComparison.Ordinal); // it came from there
        Assert.DoesNotContain("Not in a bay", await shop.WordsAsync("/wall/bay-2"), StringComparison.Ordinal);
        shop.Clock.Advance(TimeSpan.FromHours(2));
        await shop.PassAsync(1);
        Assert.Matches("Not in a bay grey estate Stays, dry(, until [^.]*: do not move it|: nobody can tell yet until when. Do not move it).*Stays until somebody has looked at it", await shop.WordsAsync("/wall"));
    }

    [Fact]
    public async Task Wall_InTheFirstHour_SaysWhatTheNightDid()
    {
        await using ServedShop shop = await AtWorkAsync(ServedShop.OpenThreeHoursADayAsync());
        shop.Clock.Advance(TimeSpan.FromHours(24));
        await shop.PassAsync(1, panelC: 5);
        string words = await shop.WordsAsync("/wall");
        Assert.Contains("Good morning: what the night did", words, StringComparison.Ordinal);
        Assert.Contains("Look first: bonnet of grey estate", words, StringComparison.Ordinal);
        shop.Clock.Advance(TimeSpan.FromHours(1));
        Assert.DoesNotContain("Good morning", await shop.WordsAsync("/wall"), StringComparison.Ordinal);
    }

    [Fact]
    public async Task ProbesThatFellSilentWithTheBroker_AreOneTrouble()
    {
        await using ServedShop shop = await ServedShop.OpenAsync();
        await shop.PassAsync(1);
        shop.Troubles.Raise(WarningKind.BrokerTrouble, "refused");
        shop.Clock.Advance(TimeSpan.FromMinutes(10));
        await shop.GetAsync("/api/v1/bays");
        Assert.DoesNotContain("A probe is silent", await shop.WordsAsync("/wall"), StringComparison.Ordinal);
        shop.Troubles.Clear(WarningKind.BrokerTrouble);
        Assert.Contains("A probe is silent", await shop.WordsAsync("/wall"), StringComparison.Ordinal);
    }

    private static async Task<ServedShop> AtWorkAsync(Task<ServedShop> opening)
    {
        ServedShop shop = await opening;
        await shop.PassAsync(3);
        await shop.PostAsync("/api/v1/jobs", Asked.Car, HttpStatusCode.Created);
        foreach (int section in new[] { 1, 2 })
        {
            await shop.PostAsync(
                "/api/v1/jobs/grey-estate/taps",
                $$"""{"id":"tap-{{section}}","at":"{{shop.Clock.GetUtcNow():yyyy-MM-ddTHH:mm:ssZ}}","did":"applied","surface":"bonnet","layer":1,"section":{{section}}}""",
                HttpStatusCode.Created);
        }

        await shop.PassAsync(3);
        return shop;
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
