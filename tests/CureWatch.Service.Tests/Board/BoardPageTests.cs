using System.Net;
using System.Text.RegularExpressions;
using CureWatch.Service.Journal;
using CureWatch.Service.Pump;
using CureWatch.Service.Tests.Api;
using CureWatch.Warnings;

namespace CureWatch.Service.Tests.Board;

public class BoardPageTests
{
    [Fact]
    public async Task Board_OfAnEmptyShop_SaysSo()
    {
        await using ServedShop shop = await ServedShop.OpenAsync();
        string words = await shop.WordsAsync("/");
        Assert.Contains("None stands", words, StringComparison.Ordinal);
        Assert.Contains("No air probe is heard", words, StringComparison.Ordinal);
        Assert.Contains("0 of 3 probes heard", words, StringComparison.Ordinal);
        Assert.Contains("No car here.", words, StringComparison.Ordinal);
    }

    [Fact]
    public async Task Bay_Heard_ShowsItsClimateWithSpread()
    {
        await using ServedShop shop = await ServedShop.OpenAsync();
        await shop.PassAsync(1, panelC: 11);
        string words = await shop.WordsAsync("/");
        Assert.Contains("1.7 K spread", words, StringComparison.Ordinal);
        Assert.Contains("Close: less than 3 K above condensation", words, StringComparison.Ordinal);
        Assert.Contains("Air 20.0 °C Humidity 50 % Dew point 9.3 °C Coldest panel 11.0 °C", words, StringComparison.Ordinal);
        Assert.Contains("Coldest panel, not measured", words, StringComparison.Ordinal);
        Assert.Contains("Measured 09:01", words, StringComparison.Ordinal); // Dublin in May is an hour ahead
    }

    [Fact]
    public async Task Clock_ThatFellBehindTheJournal_IsToldUntilItHasCaughtUp()
    {
        await using ServedShop shop = await ServedShop.OpenAsync();
        await shop.PassAsync(1);
        DateTimeOffset right = shop.Clock.GetUtcNow();
        shop.Clock.AdjustTime(right - TimeSpan.FromMinutes(1));
        await shop.ReadAsync("air", 20.5, 50);
        Assert.DoesNotContain("The clock of this computer is wrong", await shop.WordsAsync("/"), StringComparison.Ordinal);
        shop.Clock.AdjustTime(right - TimeSpan.FromHours(3));
        await shop.ReadAsync("air", 21, 50);
        Assert.Contains("it shows 2026-05-04T05:01:00Z, and the last entry is of 2026-05-04T08:01:00Z", await shop.WordsAsync("/"), StringComparison.Ordinal);
        shop.Clock.AdjustTime(right);
        await shop.ReadAsync("air", 20.5, 50);
        Assert.DoesNotContain("The clock of this computer is wrong", await shop.WordsAsync("/"), StringComparison.Ordinal);
    }

    [Fact]
    public async Task DeviceClock_ThatIsOff_IsToldInWords()
    {
        await using ServedShop shop = await ServedShop.OpenAsync();
        DateTimeOffset now = shop.Clock.GetUtcNow();
        await shop.AskAsync(new Arrival.Reading(new Entry.Reading("bay-1", "air", now.AddMinutes(-7), 20, 50, null)));
        await shop.AskAsync(new Arrival.Reading(new Entry.Reading("bay-2", "air", now.AddDays(1), 20, 50, null)));
        string words = await shop.WordsAsync("/");
        Assert.Contains("air: its clock is 7 min behind, heard", words, StringComparison.Ordinal);
        Assert.Contains("air: its clock is 24 h 00 min ahead, not believed since 09:00: its clock is ahead of this one; last believed", words, StringComparison.Ordinal);
    }

    [Fact]
    public async Task Bay_Silent_SaysSinceWhenInWords()
    {
        await using ServedShop shop = await ServedShop.OpenAsync();
        await shop.PassAsync(1);
        shop.Clock.Advance(TimeSpan.FromMinutes(10));
        string words = await shop.WordsAsync("/");
        Assert.Contains("Stale: the air probe is silent", words, StringComparison.Ordinal);
        Assert.Contains("air: silent, last heard 09:01 (10 min ago)", words, StringComparison.Ordinal);
        Assert.Contains("A probe is silent bay-1, probe air", words, StringComparison.Ordinal);
        Assert.Contains("Look at its battery", words, StringComparison.Ordinal);
    }

    [Fact]
    public async Task Warning_ThatSuggestsHeatOrShutDoors_ComesWithItsCaution()
    {
        await using ServedShop shop = await ServedShop.OpenAsync();
        await shop.PostAsync("/api/v1/jobs", Asked.Car, HttpStatusCode.Created);
        await shop.PassAsync(1);
        using HttpResponseMessage applied = await shop.PressAsync("/", "applied", "bonnet");
        await shop.PassAsync(5, panelC: 8);
        string words = await shop.WordsAsync("/");
        Assert.Contains("Water is condensing", words, StringComparison.Ordinal);
        Assert.Contains("no heater or lamp runs unattended", words, StringComparison.Ordinal);
    }

    [Fact]
    public async Task Car_Started_IsOnTheBoardWithEveryHold()
    {
        await using ServedShop shop = await ServedShop.OpenAsync();
        await shop.PostAsync("/api/v1/jobs", Asked.Car, HttpStatusCode.Created);
        string words = await shop.WordsAsync("/");
        Assert.Contains("grey estate", words, StringComparison.Ordinal);
        Assert.Contains("Stays: 3 reasons", words, StringComparison.Ordinal);
        Assert.Contains("Not applied bonnet, layer 1, section 1; bonnet, layer 1, section 2; wheels, layer 1, section 1", words, StringComparison.Ordinal);
        Assert.Contains("Promised Tue 11:00", words, StringComparison.Ordinal);
        Assert.Contains("bonnet, section 1 of 2 Paint <b>coat</b>", words, StringComparison.Ordinal);
        Assert.Contains("solvent vapour catches fire", words, StringComparison.Ordinal);
    }

    [Fact]
    public async Task Car_OnItsPage_SaysWhatItsTimesAssume_AsItsWindowsDo()
    {
        await using ServedShop shop = await ServedShop.OpenAsync();
        await shop.PostAsync("/api/v1/jobs", Asked.Car, HttpStatusCode.Created);
        await shop.PassAsync(1);
        string assumes = (await shop.GetAsync("/api/v1/jobs/grey-estate/windows")).GetProperty("assumes").GetString()!;
        Assert.StartsWith("The climate from now on is held", assumes, StringComparison.Ordinal);
        Assert.Contains(assumes, await shop.WordsAsync("/jobs/grey-estate"), StringComparison.Ordinal);
    }

    [Fact]
    public async Task Coat_IsFollowedFromTheWipeToKeepDry()
    {
        await using ServedShop shop = await ServedShop.OpenAsync();
        await shop.PostAsync("/api/v1/jobs", Asked.Car, HttpStatusCode.Created);
        await shop.PassAsync(1);
        using HttpResponseMessage applied = await shop.PressAsync("/", "applied", "bonnet");
        applied.AssertSeesOther("/#car-grey-estate");
        Assert.Contains("bonnet, section 1 of 2 flashing Look from 09:01", await shop.WordsAsync("/"), StringComparison.Ordinal);
        await shop.PassAsync(3);
        Assert.Contains("bonnet, section 1 of 2 level now Level by 09:0", await shop.WordsAsync("/"), StringComparison.Ordinal);
        using HttpResponseMessage levelled = await shop.PressAsync("/", "levelled", "bonnet");
        string words = await shop.WordsAsync("/");
        Assert.Contains("bonnet, section 1 of 2 keep dry Keep dry until ", words, StringComparison.Ordinal);
        Assert.DoesNotContain("level now", words, StringComparison.Ordinal);
    }

    [Fact]
    public async Task Coat_WhoseLevelOffIsMissed_AsksForOneThing()
    {
        await using ServedShop shop = await ServedShop.OpenAsync();
        await shop.PostAsync("/api/v1/jobs", Asked.Car, HttpStatusCode.Created);
        await shop.PassAsync(1);
        using HttpResponseMessage applied = await shop.PressAsync("/", "applied", "bonnet");
        await shop.PassAsync(12);
        string words = await shop.WordsAsync("/");
        Assert.Contains("Level-off missed grey estate, bonnet, layer 1, section 1 Re-wet and level now, then inspect.", words, StringComparison.Ordinal);
        Assert.Contains("bonnet, section 1 of 2 too late", words, StringComparison.Ordinal);
        Assert.DoesNotContain("Ready to level", words, StringComparison.Ordinal);
        Assert.DoesNotContain("Level-off is closing", words, StringComparison.Ordinal);
    }

    [Fact]
    public async Task Coat_TooShortToTime_ShowsNoTime()
    {
        await using ServedShop shop = await ServedShop.OpenAsync();
        await shop.PostAsync("/api/v1/jobs", Asked.Car.Replace("\"paint\"", "\"quick\"", StringComparison.Ordinal), HttpStatusCode.Created);
        await shop.PassAsync(1);
        using HttpResponseMessage applied = await shop.PressAsync("/", "applied", "bonnet");
        string words = await shop.WordsAsync("/");
        Assert.Contains("bonnet, section 1 of 2 look now smaller sections, judge by eye", words, StringComparison.Ordinal);
        Assert.DoesNotContain("evel by", words, StringComparison.Ordinal);
        Assert.DoesNotContain("Look from", words, StringComparison.Ordinal);
    }

    [Fact]
    public async Task Car_Elsewhere_IsShownToo()
    {
        await using ServedShop shop = await ServedShop.OpenAsync();
        await shop.PostAsync("/api/v1/jobs", Asked.Car, HttpStatusCode.Created);
        await shop.PostAsync("/api/v1/jobs/grey-estate/taps", """{"at":"2026-05-04T08:00:00Z","did":"moved","toBay":"store"}""", HttpStatusCode.Created);
        Assert.Contains("not in a bay grey estate", await shop.WordsAsync("/"), StringComparison.Ordinal);
    }

    [Theory]
    [InlineData("/")]
    [InlineData("/start")]
    [InlineData("/jobs/grey-estate")]
    public async Task Trouble_OfTheServiceItself_IsOnEveryPageWithWhatToDo(string path)
    {
        await using ServedShop shop = await ServedShop.OpenFragileAsync();
        await shop.PostAsync("/api/v1/jobs", Asked.Car, HttpStatusCode.Created);
        Assert.DoesNotContain("in trouble", await shop.WordsAsync(path), StringComparison.Ordinal);
        shop.Troubles.Raise(WarningKind.BrokerTrouble, "refused");
        await shop.BreakJournalAsync();
        string words = await shop.WordsAsync(path);
        Assert.Contains(
            "The service itself is in trouble Nothing is recorded any more Write down what is done to which coat, and when.", words, StringComparison.Ordinal);
        Assert.Contains("No probe can be heard: the broker is away Look at the computer the broker runs on", words, StringComparison.Ordinal);
    }

    [Fact]
    public async Task Button_PressedWhileNothingIsStored_SaysSo()
    {
        await using ServedShop shop = await ServedShop.OpenFragileAsync();
        await shop.PostAsync("/api/v1/jobs", Asked.Car, HttpStatusCode.Created);
        await shop.BreakJournalAsync();
        using HttpResponseMessage applied = await shop.PressAsync("/", "applied", "bonnet");
        Assert.Equal(HttpStatusCode.ServiceUnavailable, applied.StatusCode);
        string html = await applied.Content.ReadAsStringAsync(TestContext.Current.CancellationToken);
        Assert.Contains("It could not be stored. Write it down", html, StringComparison.Ordinal);
        Assert.Contains("The service itself is in trouble", html, StringComparison.Ordinal);
    }

    [Theory]
    [InlineData("/")]
    [InlineData("/start")]
    [InlineData("/jobs/grey-estate")]
    public async Task Page_HasNothingInlineAndNothingFromElsewhere(string path)
    {
        await using ServedShop shop = await ServedShop.OpenAsync();
        await shop.PostAsync("/api/v1/jobs", Asked.Car.Replace("grey estate", "<script>alert(1)</script>\\\" onclick=x", StringComparison.Ordinal), HttpStatusCode.Created);
        await shop.PassAsync(1);
        string html = await shop.TextAsync(path);
        Assert.StartsWith("<!DOCTYPE html>", html.TrimStart(), StringComparison.Ordinal);
        Assert.DoesNotMatch(new Regex("<style|<script(?![^>]* src=\"/assets/)|<[^>]* (style|on[a-z]+)=", RegexOptions.IgnoreCase), html);
        Assert.DoesNotMatch(new Regex("(src|href|action)=\"(?!/)", RegexOptions.IgnoreCase), html.Replace("href=\"#content\"", "", StringComparison.Ordinal));
        Assert.DoesNotContain("<b>coat", html, StringComparison.Ordinal);
    }

    [Fact]
    public async Task Asset_IsKeptForEver_UnderTheAddressThePageGives()
    {
        await using ServedShop shop = await ServedShop.OpenAsync();
        string html = await shop.TextAsync("/");
        string[] links = [.. Regex.Matches(html, "\"(/assets/[^\"]+)\"").Select(m => m.Groups[1].Value)];
        Assert.Equal(3, links.Length);
        foreach (string link in links)
        {
            using HttpResponseMessage asset = await shop.SendAsync(HttpMethod.Get, link);
            Assert.Equal(HttpStatusCode.OK, asset.StatusCode);
            Assert.Contains("immutable", asset.Headers.CacheControl?.ToString(), StringComparison.Ordinal);
        }

        await shop.GetAsync("/assets/old/board.css", HttpStatusCode.NotFound);
        await shop.GetAsync("/assets/old/..%2Fsecret", HttpStatusCode.NotFound);
    }

    [Theory]
    [InlineData("/nothing")]
    [InlineData("/jobs/nobody")]
    [InlineData("/jobs/%3Cscript%3E")]
    public async Task Page_ThatIsNotThere_SaysSo(string path)
    {
        await using ServedShop shop = await ServedShop.OpenAsync();
        using HttpResponseMessage answer = await shop.SendAsync(HttpMethod.Get, path);
        Assert.Equal(HttpStatusCode.NotFound, answer.StatusCode);
        Assert.Equal("text/html", answer.Content.Headers.ContentType?.MediaType);
        Assert.DoesNotContain("<script>", await answer.Content.ReadAsStringAsync(TestContext.Current.CancellationToken), StringComparison.Ordinal);
    }
}
