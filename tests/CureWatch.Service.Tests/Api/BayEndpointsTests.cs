using System.Text.Json;
using CureWatch.Service.Journal;
using CureWatch.Service.Pump;

namespace CureWatch.Service.Tests.Api;

public class BayEndpointsTests
{
    [Fact]
    public async Task Bay_Heard_HasItsClimateWithSpread()
    {
        await using ServedShop shop = await ServedShop.OpenAsync();
        await shop.PassAsync(1, panelC: 15);
        JsonElement bay = (await shop.GetAsync("/api/v1/bays")).GetProperty("bays")[0];
        JsonElement climate = bay.GetProperty("climate");
        Assert.Equal(9.27, climate.GetProperty("dewPointC").GetDouble(), 0.005);
        Assert.Equal(15 - 9.27, climate.GetProperty("spreadK").GetDouble(), 0.005);
        Assert.Equal("dry", climate.GetProperty("verdict").GetString());
        Assert.True(climate.GetProperty("panelMeasured").GetBoolean());
        Assert.Equal("2026-05-04T08:01:00Z", climate.GetProperty("at").GetString());
        Assert.Equal("cabin", bay.GetProperty("places")[0].GetProperty("place").GetString());
        Assert.Equal(["heard", "heard", "heard"], bay.GetProperty("probes").EnumerateArray().Select(p => p.GetProperty("state").GetString()));
    }

    [Fact]
    public async Task Course_EndsNowAndBeginsNow()
    {
        await using ServedShop shop = await ServedShop.OpenAsync();
        await shop.PassAsync(1, panelC: 15);
        JsonElement course = await shop.GetAsync("/api/v1/bays/bay-1/course");
        Assert.False(course.GetProperty("isForecast").GetBoolean());
        JsonElement last = course.GetProperty("past").EnumerateArray().Last(), first = course.GetProperty("ahead")[0];
        Assert.Equal((20, 15), (last.GetProperty("airC").GetDouble(), last.GetProperty("panelC").GetDouble()));
        Assert.Equal(last.GetProperty("at").GetString(), first.GetProperty("at").GetString());
        Assert.Equal(15, first.GetProperty("panelC").GetProperty("likely").GetDouble(), 0.1);
        await shop.GetAsync("/api/v1/bays/bay-9/course", System.Net.HttpStatusCode.NotFound);
    }

    [Fact]
    public async Task Bay_NotHeardAnyMore_SaysSoBetweenReadings()
    {
        await using ServedShop shop = await ServedShop.OpenAsync();
        await shop.PassAsync(1);
        shop.Clock.Advance(TimeSpan.FromHours(1));
        JsonElement bay = await shop.GetAsync("/api/v1/bays/bay-1");
        Assert.Equal(JsonValueKind.Null, bay.GetProperty("climate").ValueKind);
        Assert.All(bay.GetProperty("probes").EnumerateArray(), p => Assert.Equal("silent", p.GetProperty("state").GetString()));
        Assert.Equal(20, bay.GetProperty("probes")[0].GetProperty("airC").GetDouble());
        Assert.Equal(3, bay.GetProperty("warnings").GetArrayLength());
        JsonElement warning = (await shop.GetAsync("/api/v1/warnings")).GetProperty("warnings")[0];
        Assert.Equal("probe-silent", warning.GetProperty("kind").GetString());
        Assert.NotEmpty(warning.GetProperty("action").GetString()!);
    }

    [Fact]
    public async Task Probe_WithAClock_SaysHowFarItIsOff()
    {
        await using ServedShop shop = await ServedShop.OpenAsync();
        for (int minute = 0; minute < 120; minute++)
        {
            shop.Clock.Advance(TimeSpan.FromMinutes(1));
            DateTimeOffset claim = shop.Clock.GetUtcNow().AddSeconds(-40 + (minute * 0.01));
            await shop.AskAsync(new Arrival.Reading(new Entry.Reading("bay-1", "air", claim, 20 + (minute % 7 * 0.1), 50, null)));
            await shop.ReadPanelAsync(19);
        }

        JsonElement[] probes = [.. (await shop.GetAsync("/api/v1/bays/bay-1")).GetProperty("probes").EnumerateArray()];
        Assert.Equal(-38.81, probes[0].GetProperty("clockOffsetSeconds").GetDouble(), 0.02);
        Assert.Equal(14.4, probes[0].GetProperty("clockDriftSecondsPerDay").GetDouble(), 0.1);
        Assert.Equal(JsonValueKind.Null, probes[1].GetProperty("clockOffsetSeconds").ValueKind); // the panel probe says no time
    }

    [Fact]
    public async Task Products_AreListedWithTheirCautions()
    {
        await using ServedShop shop = await ServedShop.OpenAsync();
        JsonElement product = (await shop.GetAsync("/api/v1/products")).GetProperty("products")[0];
        Assert.Equal("Mind the vapour.", product.GetProperty("cautions")[0].GetString());
        Assert.True(product.GetProperty("newest").GetBoolean());
    }
}
