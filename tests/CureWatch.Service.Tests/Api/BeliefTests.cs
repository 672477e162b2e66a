using System.Net;
using System.Text.Json;

namespace CureWatch.Service.Tests.Api;

/// <summary>Whether a probe is believed, and else why not, wherever somebody looks.</summary>
public class BeliefTests
{
    [Fact]
    public async Task ProbeAtFault_IsToldWithItsReason_InTheReadings_TheBay_TheWarnings_AndOnThePage()
    {
        await using ServedShop shop = await ServedShop.OpenAsync();
        await shop.PassAsync(1);
        for (int minute = 0; minute < 12; minute++)
        {
            shop.Clock.Advance(TimeSpan.FromMinutes(1));
            await shop.ReadAsync("air", 20, 140);
            await shop.ReadAsync("cabin", 20, 50);
        }

        JsonElement probe = (await shop.GetAsync("/api/v1/readings")).GetProperty("probes").EnumerateArray()
            .Single(p => p.GetProperty("place").GetString() == "bay-1/air");
        AssertRefused(probe.GetProperty("belief"));
        JsonElement bay = await shop.GetAsync("/api/v1/bays/bay-1");
        JsonElement inBay = bay.GetProperty("probes").EnumerateArray().Single(p => p.GetProperty("probe").GetString() == "air");
        AssertRefused(inBay.GetProperty("belief"));
        Assert.Equal("heard", inBay.GetProperty("state").GetString());
        Assert.Contains("cannot be said", inBay.GetProperty("beside").GetProperty("text").GetString(), StringComparison.Ordinal);
        JsonElement warning = bay.GetProperty("warnings").EnumerateArray().Single(w => w.GetProperty("probe").GetString() == "air");
        Assert.Equal("probe-implausible", warning.GetProperty("kind").GetString());
        Assert.Equal("air says 20 °C, 140 %: it says what no sensor of its kind can measure.", warning.GetProperty("cause").GetString());

        string page = WebUtility.HtmlDecode(await shop.Client.GetStringAsync(new Uri("/", UriKind.Relative), TestContext.Current.CancellationToken));
        Assert.Contains("not believed since 09:02: it says what no sensor of its kind can measure", page, StringComparison.Ordinal);
        Assert.Contains("Stale: the air probe is not believed", page, StringComparison.Ordinal);
        Assert.Contains("A probe cannot be believed", page, StringComparison.Ordinal);
    }

    [Fact]
    public async Task ProbeThatIsBelieved_SaysSo()
    {
        await using ServedShop shop = await ServedShop.OpenAsync();
        await shop.PassAsync(1);
        JsonElement readings = await shop.GetAsync("/api/v1/readings");
        Assert.All(readings.GetProperty("probes").EnumerateArray(), p =>
        {
            Assert.True(p.GetProperty("belief").GetProperty("believed").GetBoolean());
            Assert.Equal(JsonValueKind.Null, p.GetProperty("belief").GetProperty("reason").ValueKind);
        });
    }

    private static void AssertRefused(JsonElement belief)
    {
        Assert.False(belief.GetProperty("believed").GetBoolean());
        Assert.Equal("out-of-range", belief.GetProperty("reason").GetString());
        Assert.Equal("2026-05-04T08:02:00Z", belief.GetProperty("since").GetString());
        Assert.Equal("it says what no sensor of its kind can measure", belief.GetProperty("text").GetString());
    }
}
