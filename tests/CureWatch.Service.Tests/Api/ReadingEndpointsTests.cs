using System.Net;
using System.Text.Json;

namespace CureWatch.Service.Tests.Api;

public class ReadingEndpointsTests
{
    private const string Air = "/api/v1/bays/bay-1/probes/air/readings";

    [Fact]
    public async Task Readings_AreCounted_AlsoThoseNobodyBelieves()
    {
        await using ServedShop shop = await ServedShop.OpenAsync();
        await shop.PassAsync(2);
        await shop.ReadAsync("air", 20, 140);
        await shop.ReadAsync("stranger", 20, 50);
        JsonElement readings = await shop.GetAsync("/api/v1/readings");
        Assert.Equal(8, readings.GetProperty("accepted").GetInt32());
        Assert.Equal(
            [("duplicate", "bay-1/air"), ("unknown-probe", "bay-1/stranger")],
            readings.GetProperty("refused").EnumerateArray().Select(r => (r.GetProperty("reason").GetString(), r.GetProperty("place").GetString())));
    }

    [Fact]
    public async Task Readings_OfAProbe_AreThoseOfTheDayBeforeNow()
    {
        await using ServedShop shop = await ServedShop.OpenAsync();
        await shop.PassAsync(1, airC: 19);
        shop.Clock.Advance(TimeSpan.FromDays(1));
        await shop.PassAsync(2);
        JsonElement page = await shop.GetAsync(Air);
        Assert.Equal(["2026-05-05T08:02:00Z", "2026-05-05T08:03:00Z"], Instants(page));
        Assert.Equal((20, 50), (page.GetProperty("readings")[0].GetProperty("temperatureC").GetDouble(), page.GetProperty("readings")[0].GetProperty("humidityPct").GetDouble()));
        Assert.Equal("2026-05-04T08:03:00Z", page.GetProperty("from").GetString());
        Assert.Equal("2026-05-05T08:03:00Z", page.GetProperty("to").GetString());
        JsonElement panel = await shop.GetAsync("/api/v1/bays/bay-1/probes/bonnet/readings");
        Assert.Equal(JsonValueKind.Null, panel.GetProperty("readings")[0].GetProperty("humidityPct").ValueKind);
        Assert.Equal(19, panel.GetProperty("readings")[0].GetProperty("temperatureC").GetDouble());
    }

    [Fact]
    public async Task Readings_OfAStretch_HaveBothEnds()
    {
        await using ServedShop shop = await ServedShop.OpenAsync();
        await shop.PassAsync(5);
        Assert.Equal(
            ["2026-05-04T08:02:00Z", "2026-05-04T08:03:00Z", "2026-05-04T08:04:00Z"],
            Instants(await shop.GetAsync($"{Air}?from=2026-05-04T08:02:00Z&to=2026-05-04T09:04:00%2B01:00")));
        Assert.Empty(Instants(await shop.GetAsync($"{Air}?from=1900-01-01T00:00:00Z&to=1900-01-02T00:00:00Z")));
        Assert.Equal(5, Instants(await shop.GetAsync($"{Air}?from=1900-01-01T00:00:00Z&to=2199-12-31T23:59:59Z")).Count());
    }

    [Fact]
    public async Task Readings_PageByPage_AreAll()
    {
        await using ServedShop shop = await ServedShop.OpenAsync();
        await shop.PassAsync(5);
        var all = new List<string?>();
        string? from = "2026-05-04T08:00:00Z";
        for (int page = 0; from is not null && page < 3; page++)
        {
            JsonElement answer = await shop.GetAsync($"{Air}?from={from}&most=2");
            all.AddRange(Instants(answer));
            from = answer.GetProperty("next").GetString();
        }

        Assert.Null(from);
        Assert.Equal(Instants(await shop.GetAsync(Air)), all);
    }

    [Fact]
    public async Task Question_WithFaults_IsRefusedWithEachOfThem()
    {
        await using ServedShop shop = await ServedShop.OpenAsync();
        await shop.AssertCannotBeAskedAsync($"{Air}?since=1&to=2026-05-04&from=2026-13-04T08:00:00Z&most=20001", "since", "to", "from", "most");
        await shop.AssertCannotBeAskedAsync($"{Air}?from=2026-05-04T08:00:01Z", "from");
        await shop.AssertCannotBeAskedAsync($"{Air}?to=0001-01-01T00:00:00Z", "to");
    }

    [Theory]
    [InlineData("/api/v1/bays/bay-1/probes/stranger/readings")]
    [InlineData("/api/v1/bays/bay-9/probes/air/readings")]
    [InlineData("/api/v1/bays/bay-1/probes/A%2Fb/readings")]
    [InlineData("/api/v1/bays/bay-1/probes/%F0%9F%9A%97/readings")]
    public async Task Probe_Unknown_IsNotFound(string path)
    {
        await using ServedShop shop = await ServedShop.OpenAsync();
        await shop.GetAsync(path, HttpStatusCode.NotFound);
    }

    private static IEnumerable<string?> Instants(JsonElement page) => page.GetProperty("readings").EnumerateArray().Select(r => r.GetProperty("at").GetString());
}
