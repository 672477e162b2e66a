using System.Net;
using System.Text.Json;
using CureWatch.Service.Tests.Board;

namespace CureWatch.Service.Tests.Api;

public class LearningEndpointsTests
{
    [Fact]
    public async Task Learning_TellsWhatTapsTaught_AndAReplayDoesToo()
    {
        await using ServedShop shop = await TaughtAsync();
        JsonElement learnt = Assert.Single((await shop.GetAsync("/api/v1/learning")).GetProperty("learning").EnumerateArray());
        Assert.Equal(("paint", "bay-1", "flash", 1), (Text(learnt, "product"), Text(learnt, "bay"), Text(learnt, "stage"), learnt.GetProperty("taps").GetInt32()));
        double factor = learnt.GetProperty("factor").GetDouble();
        Assert.InRange(factor, 1.3, 2);   // seen after two minutes of one
        Assert.InRange(factor, learnt.GetProperty("low").GetDouble(), learnt.GetProperty("high").GetDouble());
        Assert.Equal($"your flash here runs {Math.Round(100 * (factor - 1)):0} % slower than the sheet, from 1 tap", Text(learnt, "text"));
        Assert.False(learnt.GetProperty("disagrees").GetBoolean());
        JsonElement job = await shop.GetAsync("/api/v1/jobs/grey-estate");
        Assert.Equal(learnt.GetRawText(), Assert.Single(job.GetProperty("learning").EnumerateArray()).GetRawText());
        Assert.Equal(JsonValueKind.Null, job.GetProperty("surfaces")[0].GetProperty("coats")[0].GetProperty("learnt").GetProperty("flash").ValueKind);
    }

    [Fact]
    public async Task Reset_StartsAnewForGood()
    {
        await using ServedShop shop = await TaughtAsync();
        JsonElement left = await shop.PostAsync("/api/v1/learning/reset", """{"product":"paint","by":"Robin","note":"another batch"}""", HttpStatusCode.OK);
        Assert.Empty(left.GetProperty("learning").EnumerateArray());
        await shop.PassAsync(20);
        Assert.Empty((await shop.GetAsync("/api/v1/learning")).GetProperty("learning").EnumerateArray());
    }

    [Fact]
    public async Task Reset_WithFaults_IsRefusedWithEachOfThem()
    {
        await using ServedShop shop = await TaughtAsync();
        await shop.AssertFaultyAsync("/api/v1/learning/reset", """{"product":"varnish","bay":"bay-9","why":"x"}""", "/why", "/product", "/bay");
        await shop.AssertFaultyAsync("/api/v1/learning/reset", "{}", "/product");
        using HttpResponseMessage foreign = await shop.SendAsync(
            HttpMethod.Post, "/api/v1/learning/reset", Asked.Json("""{"product":"paint"}"""), ("Origin", "http://elsewhere.example"));
        Assert.Equal(HttpStatusCode.Forbidden, foreign.StatusCode);
        Assert.Single((await shop.GetAsync("/api/v1/learning")).GetProperty("learning").EnumerateArray());
    }

    [Fact]
    public async Task Page_SaysItAndItsFormStartsAnew()
    {
        await using ServedShop shop = await TaughtAsync();
        Assert.Contains("What your taps taught", await shop.WordsAsync("/"), StringComparison.Ordinal);
        Assert.Contains("% slower than the sheet, from 1 tap.", await shop.WordsAsync("/learning"), StringComparison.Ordinal);
        using HttpResponseMessage faulty = await shop.SubmitAsync("/learning/reset", ("product", ""), ("bay", "bay-1"), ("by", ""), ("note", "another batch"));
        Assert.Equal(HttpStatusCode.BadRequest, faulty.StatusCode);
        string again = await faulty.Content.ReadAsStringAsync(TestContext.Current.CancellationToken);
        Assert.Contains("value=\"another batch\"", again, StringComparison.Ordinal);
        Assert.Contains("selected>bay-1</option>", again, StringComparison.Ordinal); // pressed once more it would have been every bay
        using HttpResponseMessage reset = await shop.SubmitAsync("/learning/reset", ("product", "paint"), ("bay", "bay-1"), ("by", "Sam"), ("note", ""));
        reset.AssertSeesOther("/learning");
        Assert.DoesNotContain("than the sheet", await shop.WordsAsync("/learning"), StringComparison.Ordinal);
    }

    private static async Task<ServedShop> TaughtAsync()
    {
        ServedShop shop = await ServedShop.OpenAsync();
        await shop.PassAsync(10);
        await shop.PostAsync("/api/v1/jobs", Asked.Car, HttpStatusCode.Created);
        await shop.PostAsync("/api/v1/jobs/grey-estate/taps", Tap("08:10", "applied"), HttpStatusCode.Created);
        await shop.PassAsync(2, panelC: 20);
        await shop.PostAsync("/api/v1/jobs/grey-estate/taps", Tap("08:12", "flashed"), HttpStatusCode.Created);
        await shop.PassAsync(20, panelC: 20);
        return shop;

        static string Tap(string at, string did) => $$"""{"at":"2026-05-04T{{at}}:00Z","surface":"bonnet","section":1,"did":"{{did}}"}""";
    }

    private static string? Text(JsonElement of, string name) => of.GetProperty(name).GetString();
}
