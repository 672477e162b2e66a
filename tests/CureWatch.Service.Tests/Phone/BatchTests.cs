using System.Net;
using System.Text.Json;
using CureWatch.Service.Tests.Api;
using CureWatch.Service.Tests.Board;

namespace CureWatch.Service.Tests.Phone;

/// <summary>The batch of a product: said once, it costs no tap until there is another bottle.</summary>
public class BatchTests
{
    private const string Taps = "/api/v1/jobs/grey-estate/taps";

    [Fact]
    public async Task Batch_SaidOnce_IsThatOfEveryCoatOfTheProductInTheBay_UntilAnotherIsSaid()
    {
        await using ServedShop shop = await ReadyAsync();
        Assert.Contains("Batch: not told", await shop.WordsAsync(Thumb.Car), StringComparison.Ordinal);
        await shop.TellAsync("applied", ("batch", " A-2044 "));
        await AppliedAsync(shop, "t2", "bonnet", section: 2);
        await AppliedAsync(shop, "t3", "wheels", section: 1, batch: "B-1");
        await shop.PostAsync("/api/v1/jobs", Asked.Car.Replace("grey", "red", StringComparison.Ordinal), HttpStatusCode.Created);
        await shop.PostAsync("/api/v1/jobs/red-estate/taps", """{"id":"r1","at":"2026-05-04T08:05:00Z","did":"applied","surface":"wheels"}""", HttpStatusCode.Created);
        Assert.Equal(["A-2044", "A-2044", "B-1"], await BatchesAsync(shop));
        Assert.Equal(["A-2044", "A-2044", "B-1"], await CoatsAsync(shop, "grey-estate"));
        Assert.Equal(["B-1"], await CoatsAsync(shop, "red-estate"));
        Assert.Contains("bonnet, layer 1, section 1: applied, batch A-2044", await shop.WordsAsync($"{Thumb.Car}/told"), StringComparison.Ordinal);
        Assert.Contains("Batch A-2044", await shop.WordsAsync("/jobs/grey-estate"), StringComparison.Ordinal);
    }

    [Fact]
    public async Task Batch_IsKnownInItsBayAlone()
    {
        await using ServedShop shop = await ReadyAsync();
        await AppliedAsync(shop, "t1", "bonnet", section: 1, batch: "A");
        await shop.PostAsync("/api/v1/jobs", Asked.Car.Replace("grey", "red", StringComparison.Ordinal).Replace("bay-1", "bay-2", StringComparison.Ordinal), HttpStatusCode.Created);
        await shop.PostAsync("/api/v1/jobs/red-estate/taps", """{"id":"r1","at":"2026-05-04T08:05:00Z","did":"applied","surface":"wheels"}""", HttpStatusCode.Created);
        Assert.Equal([null], await CoatsAsync(shop, "red-estate"));
    }

    [Fact]
    public async Task Batch_EmptiedInItsField_IsNotKnownFromThenOn()
    {
        await using ServedShop shop = await ReadyAsync();
        await AppliedAsync(shop, "t1", "bonnet", section: 1, batch: "A");
        await shop.PostAsync(Taps, """{"id":"l1","at":"2026-05-04T08:05:00Z","did":"levelled","surface":"bonnet","section":1}""", HttpStatusCode.Created);
        Assert.Contains("value=\"A\"", await shop.TextAsync(Thumb.Car), StringComparison.Ordinal);
        await shop.TellAsync("applied", ("batch", ""));
        await AppliedAsync(shop, "t3", "wheels", section: 1);
        Assert.Equal(["A", "", null], await BatchesAsync(shop));
        Assert.Equal(["A", null, null], await CoatsAsync(shop, "grey-estate"));
    }

    [Fact]
    public async Task Batch_CorrectedAnHourLater_HoldsNothing_AndTheClockIsTheSame()
    {
        await using ServedShop shop = await ReadyAsync();
        shop.Clock.Advance(TimeSpan.FromTicks(1_234_567)); // no page says an instant to the tick
        await shop.TellAsync("applied", ("batch", "A"));
        JsonElement before = await shop.GetAsync("/api/v1/jobs/grey-estate/windows");
        string flash = FirstWindow(before);
        await shop.PassAsync(60);
        string told = await shop.TextAsync($"{Thumb.Car}/told");
        Assert.Contains("It was that batch", told, StringComparison.Ordinal);
        await shop.CorrectAsync("It was that batch", ("batch", "B"));
        JsonElement handover = await shop.GetAsync("/api/v1/jobs/grey-estate/handover");
        Assert.DoesNotContain("reported-late", handover.GetRawText(), StringComparison.Ordinal);
        JsonElement after = await shop.GetAsync("/api/v1/jobs/grey-estate/windows");
        Assert.Equal(["B"], await CoatsAsync(shop, "grey-estate"));
        Assert.Equal(AppliedAt(before), AppliedAt(after));
        Assert.Equal(flash, FirstWindow(before));
        Assert.Contains("applied, batch B", await shop.WordsAsync($"{Thumb.Car}/told"), StringComparison.Ordinal);

        static string? AppliedAt(JsonElement windows) => windows.GetProperty("surfaces")[0].GetProperty("coats")[0].Of("appliedAt");
        static string FirstWindow(JsonElement windows) => windows.GetProperty("surfaces")[0].GetProperty("coats")[0].GetProperty("windows")[0].GetRawText();
    }

    [Fact]
    public async Task Time_Corrected_KeepsTheBatch_AndIsHeldAsEver()
    {
        await using ServedShop shop = await ReadyAsync();
        await AppliedAsync(shop, "t1", "bonnet", section: 1, batch: "A");
        await AppliedAsync(shop, "t2", "wheels", section: 1, batch: "B");
        await shop.PostAsync(Taps, """{"id":"t3","at":"2026-05-04T08:03:00Z","did":"applied","surface":"bonnet","section":1,"corrects":"t1"}""", HttpStatusCode.Created);
        Assert.Equal(["A", "B"], await CoatsAsync(shop, "grey-estate"));
        Assert.Contains("reported-late", (await shop.GetAsync("/api/v1/jobs/grey-estate/handover")).GetRawText(), StringComparison.Ordinal);
    }

    // There was another bottle since: the old coat's time is no reason to go back to the one before.
    [Theory]
    [InlineData("t1", "A", "B")]
    [InlineData("t1", "C", "B")]
    [InlineData("t2", "C", "C")]
    public async Task Correction_ChangesTheBatchInUse_OnlyWhereItWasThatOfWhatItCorrects(string corrects, string batch, string used)
    {
        await using ServedShop shop = await ReadyAsync();
        await AppliedAsync(shop, "t1", "bonnet", section: 1, batch: "A");
        await AppliedAsync(shop, "t2", "bonnet", section: 2, batch: "B");
        await shop.PostAsync(
            Taps,
            $$"""{"id":"t3","at":"2026-05-04T08:03:00Z","did":"applied","surface":"bonnet","section":{{corrects[1]}},"batch":"{{batch}}","corrects":"{{corrects}}"}""",
            HttpStatusCode.Created);
        await AppliedAsync(shop, "t4", "wheels", section: 1);
        Assert.Equal(used, (await BatchesAsync(shop))[^1]);
    }

    // The next coats of that product would have the batch of another in their certificates.
    [Theory]
    [InlineData("""{"id":"t3","at":"2026-05-04T08:06:00Z","did":"withdrawn","corrects":"t2"}""", "A")]
    [InlineData("""{"id":"t3","at":"2026-05-04T08:05:00Z","did":"applied","surface":"roof","batch":"B","corrects":"t2"}""", "A")]
    [InlineData("""{"id":"t3","at":"2026-05-04T08:05:00Z","did":"applied","surface":"roof","corrects":"t2"}""", "A")]
    [InlineData("""{"id":"t3","at":"2026-05-04T08:06:00Z","did":"withdrawn","corrects":"t1"}""", "B")]
    public async Task BatchToldByMistake_IsInUseNoMore_AndTheOneBeforeIsAgain(string correction, string used)
    {
        await using ServedShop shop = await ServedShop.OpenAsync();
        await shop.PassAsync(1);
        string twoProducts = Asked.Car.Replace("\"sections\":2}", "\"sections\":3},{\"surface\":\"roof\",\"material\":\"steel\",\"product\":\"quick\"}", StringComparison.Ordinal);
        await shop.PostAsync("/api/v1/jobs", twoProducts, HttpStatusCode.Created);
        await shop.PassAsync(6);
        await AppliedAsync(shop, "t1", "bonnet", section: 1, batch: "A");
        await AppliedAsync(shop, "t2", "bonnet", section: 2, batch: "B");
        await shop.PostAsync(Taps, correction, HttpStatusCode.Created);
        await AppliedAsync(shop, "t4", "bonnet", section: 3);
        Assert.Equal(used, (await BatchesAsync(shop))[^1]);
    }

    [Fact]
    public async Task Tap_SentAgainWithoutTheBatchItGot_IsARetry()
    {
        await using ServedShop shop = await ReadyAsync();
        await AppliedAsync(shop, "t1", "bonnet", section: 1, batch: "A");
        await AppliedAsync(shop, "t2", "wheels", section: 1);
        await AppliedAsync(shop, "t2", "wheels", section: 1, expected: HttpStatusCode.OK);
        Assert.Equal(2, (await BatchesAsync(shop)).Length);
    }

    [Theory]
    [InlineData("""{"id":"x","at":"2026-05-04T08:05:00Z","did":"levelled","surface":"bonnet","batch":"A"}""")]
    [InlineData("""{"id":"x","at":"2026-05-04T08:05:00Z","did":"applied","surface":"bonnet","batch":" "}""")]
    [InlineData("""{"id":"x","at":"2026-05-04T08:05:00Z","did":"applied","surface":"bonnet","batch":"A\nB"}""")]
    [InlineData("""{"id":"x","at":"2026-05-04T08:05:00Z","did":"applied","surface":"bonnet","batch":"12345678901234567890123456789012345678901"}""")]
    [InlineData("""{"id":"x","at":"2026-05-04T08:05:00Z","did":"applied","surface":"bonnet","batch":7}""")]
    public async Task Batch_ThatIsNone_IsRefusedByName(string json)
    {
        await using ServedShop shop = await ReadyAsync();
        await shop.AssertFaultyAsync(Taps, json, "/batch");
    }

    [Fact]
    public async Task Batch_WithMarkup_IsShownAsItWasWritten()
    {
        await using ServedShop shop = await ReadyAsync();
        await shop.TellAsync("applied", ("batch", "<i>\"&"));
        Assert.Contains("applied, batch &lt;i&gt;&quot;&amp;", await shop.TextAsync($"{Thumb.Car}/told"), StringComparison.Ordinal);
    }

    private static async Task<ServedShop> ReadyAsync()
    {
        ServedShop shop = await Thumb.OpenWithCarAsync();
        await shop.TellAsync("panel-wiped");
        await shop.PassAsync(4); // until the wipe's solvent has left
        return shop;
    }

    private static Task<JsonElement> AppliedAsync(
        ServedShop shop, string id, string surface, int section, string? batch = null, HttpStatusCode expected = HttpStatusCode.Created) => shop.PostAsync(
            Taps,
            $$"""{"id":"{{id}}","at":"2026-05-04T08:04:00Z","did":"applied","surface":"{{surface}}","section":{{section}}{{(batch is null ? "" : $",\"batch\":\"{batch}\"")}}}""",
            expected);

    private static async Task<string?[]> BatchesAsync(ServedShop shop) =>
        [.. (await shop.TapsAsync()).Where(t => t.Of("did") == "applied").Select(t => t.GetProperty("batch").GetString())];

    private static async Task<string?[]> CoatsAsync(ServedShop shop, string job) =>
    [
        .. from surface in (await shop.GetAsync($"/api/v1/jobs/{job}/windows")).GetProperty("surfaces").EnumerateArray()
           from coat in surface.GetProperty("coats").EnumerateArray()
           select coat.GetProperty("batch").GetString(),
    ];
}
