using System.Net;
using System.Text.Json;
using CureWatch.Service.Tests.Commands;

namespace CureWatch.Service.Tests.Api;

/// <summary>What customers were told: over HTTP, on the page, from the data folder, and in a replay.</summary>
public class PromiseEndpointsTests
{
    private const string Promise = "/api/v1/jobs/grey-estate/promise", WhatIf = "/api/v1/jobs/grey-estate/what-if";

    [Fact]
    public async Task Promise_IsTheSame_FromTheDataFolder_AndTheExitSaysIt()
    {
        await using ServedShop shop = await OpenAsync("2026-05-04T18:00:00Z");
        JsonElement served = await shop.GetAsync(Promise);
        Assert.Equal(0, served.GetProperty("chance").GetDouble());
        Assert.Equal("bonnet", served.GetProperty("governing").GetProperty("surface").GetString());

        Invocation told = Invocation.Of("promise", "--data", shop.Data, "--job", "grey-estate", "--at", served.GetProperty("at").GetString()!, "--json");
        Assert.Equal((1, ""), (told.ExitCode, told.Error));
        Assert.True(JsonElement.DeepEquals(served, JsonElement.Parse(told.Output)), told.Output);
        Assert.Equal(2, Invocation.Of("promise", "--data", shop.Data, "--chance", "100").ExitCode);
        Assert.Equal(2, Invocation.Of("promise", "--data", shop.Data, "--job", "nobody").ExitCode);
    }

    [Fact]
    public async Task Told_ByATap_IsThePromise()
    {
        await using ServedShop shop = await OpenAsync("2026-05-04T18:00:00Z");
        await shop.PostAsync("/api/v1/jobs/grey-estate/taps", """{"id":"t","at":"2026-05-04T08:05:00Z","did":"told","promisedAt":"2026-05-06T10:00:00Z"}""", HttpStatusCode.Created);
        JsonElement served = await shop.GetAsync(Promise);
        Assert.Equal("2026-05-06T10:00:00Z", served.GetProperty("promisedAt").GetString());
        Assert.True(served.GetProperty("chance").GetDouble() > 0.9);
        Assert.Contains("2026-05-06T10:00:00", await shop.TextAsync("/api/v1/jobs/grey-estate/taps"), StringComparison.Ordinal);
        await shop.PostAsync("/api/v1/jobs/grey-estate/taps", """{"at":"2026-05-04T08:05:00Z","did":"told"}""", HttpStatusCode.BadRequest);
        await shop.PostAsync("/api/v1/jobs/grey-estate/taps", """{"at":"2026-05-04T08:05:00Z","did":"dried","promisedAt":"2026-05-06T10:00:00Z"}""", HttpStatusCode.BadRequest);
    }

    [Fact]
    public async Task WhatIf_ChangesNothing_AndNamesEveryFault()
    {
        await using ServedShop shop = await OpenAsync("2026-05-04T18:00:00Z");
        string before = await shop.TextAsync(Promise);
        JsonElement then = await shop.PostAsync(WhatIf, """{"temperatureC":28,"promisedAt":"2026-05-06T10:00:00Z"}""", HttpStatusCode.OK);
        Assert.True(then.GetProperty("chance").GetDouble() > 0.9);
        Assert.NotEmpty(then.GetProperty("cautions").EnumerateArray());
        Assert.Equal(28, then.GetProperty("air").GetProperty("airC").GetDouble());
        Assert.True(then.GetProperty("air").GetProperty("pace").GetDouble() > 1);
        Assert.Equal(before, await shop.TextAsync(Promise));

        JsonElement refused = await shop.PostAsync(WhatIf, """{"temperatureC":99,"surface":"roof","product":"wax","colour":1,"startAt":"2026-05-04T07:00:00Z"}""", HttpStatusCode.BadRequest);
        Assert.Equal(
            ["/colour", "/product", "/startAt", "/surface", "/temperatureC"],
            refused.GetProperty("faults").EnumerateArray().Select(f => f.GetProperty("place").GetString()).Order());
        await shop.PostAsync("/api/v1/jobs/nobody/what-if", "{}", HttpStatusCode.NotFound);
    }

    [Fact]
    public async Task Promises_BeginWithTheOneMostAtRisk()
    {
        await using ServedShop shop = await OpenAsync("2026-05-04T18:00:00Z");
        foreach ((string job, string? promisedAt) in new[] { ("safe", (string?)"2026-05-09T10:00:00Z"), ("untold", null), ("tight", "2026-05-04T19:00:00Z") })
        {
            string promise = promisedAt is null ? "" : $",\"promisedAt\":\"{promisedAt}\"";
            await shop.PostAsync("/api/v1/jobs", $$"""{"job":"{{job}}","bay":"bay-2"{{promise}},"surfaces":[{"surface":"roof","material":"steel","product":"paint"}]}""", HttpStatusCode.Created);
        }

        // It stands in one bay behind two others.
        JsonElement all = await shop.GetAsync("/api/v1/promises");
        Assert.Equal(
            ["tight", "grey-estate", "safe", "untold"], all.GetProperty("promises").EnumerateArray().Select(p => p.GetProperty("job").GetString()));
    }

    [Fact]
    public async Task Pages_SayIt()
    {
        await using ServedShop shop = await OpenAsync("2026-05-04T18:00:00Z");
        Assert.Contains("What if?", await shop.TextAsync("/jobs/grey-estate"), StringComparison.Ordinal);
        Assert.Contains("Promises, most at risk first", await shop.TextAsync("/promises"), StringComparison.Ordinal);
        string asked = await shop.TextAsync("/jobs/grey-estate/what-if?temperatureC=28&humidityPct=&surface=&lampMinutes=&product=&startAt=&promisedAt=2026-05-06T10:00");
        Assert.Contains("Nothing was changed or recorded", asked, StringComparison.Ordinal);
        Assert.Contains("caution", asked, StringComparison.Ordinal);
        Assert.Contains("faster than now", asked, StringComparison.Ordinal);
    }

    [Fact]
    public async Task WhatIf_OfAPromiseThatIsPast_TellsNoChance()
    {
        await using ServedShop shop = await OpenAsync("2026-05-04T08:03:00Z");
        string asked = await shop.TextAsync("/jobs/grey-estate/what-if?temperatureC=28");
        Assert.Contains("is past: it cannot be made any more", asked, StringComparison.Ordinal);
        Assert.DoesNotContain("Chance to make", asked, StringComparison.Ordinal);
    }

    private static async Task<ServedShop> OpenAsync(string promisedAt)
    {
        ServedShop shop = await ServedShop.OpenAsync();
        await shop.PassAsync(1);
        await shop.PostAsync(
            "/api/v1/jobs",
            $$"""{"job":"grey-estate","bay":"bay-1","promisedAt":"{{promisedAt}}","surfaces":[{"surface":"bonnet","material":"steel","product":"paint"}]}""",
            HttpStatusCode.Created);
        await shop.PassAsync(4);
        await shop.PostAsync("/api/v1/jobs/grey-estate/taps", """{"id":"a","at":"2026-05-04T08:02:00Z","did":"applied"}""", HttpStatusCode.Created);
        await shop.PostAsync("/api/v1/jobs/grey-estate/taps", """{"id":"b","at":"2026-05-04T08:05:00Z","did":"levelled"}""", HttpStatusCode.Created);
        return shop;
    }
}
