using System.Net;
using System.Text.Json;

namespace CureWatch.Service.Tests.Api;

public class JobEndpointsTests
{
    private const string Applied = """{"id":"t1","at":"2026-05-04T08:10:00Z","surface":"bonnet","section":1,"did":"applied","by":"Sam"}""";

    [Fact]
    public async Task Job_Posted_IsCreatedWithItsLocation()
    {
        await using ServedShop shop = await ServedShop.OpenAsync();
        using HttpResponseMessage answer = await shop.SendAsync(HttpMethod.Post, "/api/v1/jobs", Asked.Json(Asked.Car));
        JsonElement job = await answer.DocumentAsync(HttpStatusCode.Created);
        Assert.Equal("/api/v1/jobs/grey-estate", answer.Headers.Location?.ToString());
        Assert.Equal("hold", job.GetProperty("verdict").GetString());
        Assert.Equal("2026-05-04T08:00:00Z", job.GetProperty("startedAt").GetString());
        Assert.Equal("grey-estate", (await shop.GetAsync("/api/v1/jobs")).GetProperty("jobs")[0].GetProperty("job").GetString());
    }

    [Fact]
    public async Task Job_PostedTwice_ChangesNothing()
    {
        await using ServedShop shop = await WithCarAsync();
        await shop.PostAsync("/api/v1/jobs", Asked.Car, HttpStatusCode.OK);
        Assert.Equal(1, (await shop.GetAsync("/api/v1/jobs")).GetProperty("jobs").GetArrayLength());
    }

    [Fact]
    public async Task Job_WithFaults_IsRefusedWithEachOfThem()
    {
        await using ServedShop shop = await ServedShop.OpenAsync();
        await shop.AssertFaultyAsync("/api/v1/jobs", """{"job":"UPPER","bay":"bay-9","colour":"red","surfaces":[{"surface":"a","material":"wood","product":"paint"}]}""",
            "/colour", "/job", "/bay", "/surfaces/0/material");
        await shop.AssertFaultyAsync("/api/v1/jobs", """["no","object"]""", "");
        await shop.AssertFaultyAsync("/api/v1/jobs", "{ not json", "line 1");
        await shop.AssertFaultyAsync("/api/v1/jobs", "", "line 1");
        Assert.Equal(0, (await shop.GetAsync("/api/v1/jobs")).GetProperty("jobs").GetArrayLength());
    }

    [Fact]
    public async Task Job_IsShownAsOfNow_AlsoBetweenReadings()
    {
        await using ServedShop shop = await WithCarAsync();
        await shop.PassAsync(11);
        await shop.PostAsync("/api/v1/jobs/grey-estate/taps", Applied, HttpStatusCode.Created);
        Assert.Equal("2026-05-04T08:11:00Z", (await shop.GetAsync("/api/v1/jobs/grey-estate")).GetProperty("until").GetString());
        shop.Clock.Advance(TimeSpan.FromMinutes(1));
        JsonElement job = await shop.GetAsync("/api/v1/jobs/grey-estate");
        Assert.Equal("2026-05-04T08:12:00Z", job.GetProperty("until").GetString());
        Assert.Equal(44, job.GetProperty("readings").GetProperty("accepted").GetInt32());
        Assert.Equal("bonnet", (await shop.GetAsync("/api/v1/jobs/grey-estate/windows")).GetProperty("surfaces")[0].GetProperty("surface").GetString());
    }

    [Fact]
    public async Task Tap_Retried_CountsOnce()
    {
        await using ServedShop shop = await WithCarAsync();
        shop.Clock.Advance(TimeSpan.FromMinutes(12));
        Assert.Equal("stored", (await shop.PostAsync("/api/v1/jobs/grey-estate/taps", Applied, HttpStatusCode.Created)).GetProperty("answer").GetString());
        Assert.Equal("repeated", (await shop.PostAsync("/api/v1/jobs/grey-estate/taps", Applied, HttpStatusCode.OK)).GetProperty("answer").GetString());
        JsonElement taps = (await shop.GetAsync("/api/v1/jobs/grey-estate/taps")).GetProperty("taps");
        Assert.Equal(1, taps.GetArrayLength());
        Assert.Equal("Sam", taps[0].GetProperty("by").GetString());
        Assert.Equal("2026-05-04T08:12:00Z", taps[0].GetProperty("reportedAt").GetString());
    }

    [Fact]
    public async Task Tap_WithFaults_IsRefusedWithEachOfThem()
    {
        await using ServedShop shop = await WithCarAsync();
        await shop.AssertFaultyAsync("/api/v1/jobs/grey-estate/taps", """{"at":"today","did":"painted","layer":"1","extra":1}""", "/extra", "/did", "/at", "/layer");
        await shop.AssertFaultyAsync("/api/v1/jobs/grey-estate/taps", """{"at":"2026-05-04T09:00:00Z","did":"levelled"}""", "/at");
    }

    [Fact]
    public async Task Handover_OfAHeldCar_IsRefusedWithEveryHold()
    {
        await using ServedShop shop = await WithCarAsync();
        JsonElement ruling = await shop.GetAsync("/api/v1/jobs/grey-estate/handover");
        JsonElement refused = await shop.PostAsync("/api/v1/jobs/grey-estate/handover", """{"by":"Robin"}""", HttpStatusCode.Conflict);
        Assert.Equal(3, refused.GetProperty("holds").GetArrayLength());
        Assert.Equal(ruling.GetProperty("holds").GetRawText(), refused.GetProperty("holds").GetRawText());
        Assert.Equal(JsonValueKind.Null, ruling.GetProperty("handedOver").ValueKind);
    }

    [Fact]
    public async Task Handover_Despite_LetsTheCarGo()
    {
        await using ServedShop shop = await WithCarAsync();
        JsonElement left = await shop.PostAsync("/api/v1/jobs/grey-estate/handover", """{"by":"Robin","despite":"the customer insists"}""", HttpStatusCode.OK);
        Assert.Equal("the customer insists", left.GetProperty("handedOver").GetProperty("despite").GetString());
        Assert.Equal("2026-05-04T08:00:00Z", (await shop.GetAsync("/api/v1/jobs")).GetProperty("jobs")[0].GetProperty("leftAt").GetString());
        Assert.Equal(0, (await shop.GetAsync("/api/v1/bays/bay-1")).GetProperty("jobs").GetArrayLength());
    }

    [Fact]
    public async Task Handover_WithFaults_IsRefused()
    {
        await using ServedShop shop = await WithCarAsync();
        await shop.AssertFaultyAsync("/api/v1/jobs/grey-estate/handover", """{"by":7,"becuse":"x"}""", "/becuse", "/by");
        await shop.AssertFaultyAsync("/api/v1/jobs/grey-estate/handover", "null", "");
    }

    [Theory]
    [InlineData("")]
    [InlineData("/windows")]
    [InlineData("/taps")]
    [InlineData("/handover")]
    public async Task Job_Unknown_IsNotFound(string part)
    {
        await using ServedShop shop = await ServedShop.OpenAsync();
        await shop.GetAsync($"/api/v1/jobs/nobody{part}", HttpStatusCode.NotFound);
    }

    [Theory]
    [InlineData("taps")]
    [InlineData("handover")]
    public async Task Write_ToAnUnknownJob_IsNotFound(string part)
    {
        await using ServedShop shop = await ServedShop.OpenAsync();
        JsonElement problem = await shop.PostAsync($"/api/v1/jobs/nobody/{part}", "{}", HttpStatusCode.NotFound);
        Assert.Equal("No job 'nobody'.", problem.GetProperty("detail").GetString());
    }

    [Fact]
    public async Task Car_NamedInMarkup_IsText()
    {
        await using ServedShop shop = await ServedShop.OpenAsync();
        await shop.PostAsync("/api/v1/jobs", Asked.Car.Replace("grey estate", "<script>alert(1)</script>", StringComparison.Ordinal), HttpStatusCode.Created);
        string raw = await shop.TextAsync("/api/v1/jobs");
        Assert.DoesNotContain("<script>", raw, StringComparison.Ordinal);
    }

    private static async Task<ServedShop> WithCarAsync()
    {
        ServedShop shop = await ServedShop.OpenAsync();
        await shop.PostAsync("/api/v1/jobs", Asked.Car, HttpStatusCode.Created);
        return shop;
    }
}
