using System.Net;
using System.Text.Json;
using CureWatch.Service.Tests.Api;
using CureWatch.Service.Tests.Board;

namespace CureWatch.Service.Tests.Phone;

/// <summary>What a phone kept while it could not reach the service.</summary>
public class QueuedTapTests
{
    [Fact]
    public async Task QueuedTap_KeepsItsOwnTime_AndIsNoLateReport()
    {
        await using ServedShop shop = await Thumb.OpenWithCarAsync();
        await shop.TellAsync("panel-wiped");
        await shop.PassAsync(40);
        await SendAsync(shop, "1", "applied", "2026-05-04T08:02:03.456Z");
        JsonElement tap = (await shop.TapsAsync())[^1];
        Assert.Equal(("2026-05-04T08:02:03.456Z", "2026-05-04T08:02:03.456Z"), (tap.Of("at"), tap.Of("reportedAt")));
        Assert.DoesNotContain("reported-late", (await shop.GetAsync("/api/v1/jobs/grey-estate/handover")).GetRawText(), StringComparison.Ordinal);
    }

    [Fact]
    public async Task QueuedTap_SentAgainAndAgain_CountsOnce()
    {
        await using ServedShop shop = await Thumb.OpenWithCarAsync();
        for (int tries = 0; tries < 5; tries++)
        {
            await SendAsync(shop, "0", "applied", "2026-05-04T08:00:30.000Z");
            await SendAsync(shop, "1", "levelled", "2026-05-04T08:00:50.000Z");
            await shop.PassAsync(1);
        }

        Assert.Equal(["applied", "levelled"], (await shop.TapsAsync()).Select(t => t.Of("did")));
    }

    [Theory]
    [InlineData("0", "now")]
    [InlineData("0", "2026-05-04 08:00:30")]
    [InlineData("0", "2026-05-04T09:00:30.000Z")] // an hour ahead of the service
    [InlineData("9999", "2026-05-04T08:00:30.000Z")]
    public async Task QueuedTap_OfNoTime_IsRefused(string ago, string pressedAt)
    {
        await using ServedShop shop = await Thumb.OpenWithCarAsync();
        using HttpResponseMessage answer = await shop.SubmitAsync($"{Thumb.Car}/taps", ("number", "0"), ("did", "wetted"), ("ago", ago), ("pressedAt", pressedAt));
        Assert.Equal(HttpStatusCode.BadRequest, answer.StatusCode);
        Assert.Contains("That was not taken", await answer.WordsAsync(), StringComparison.Ordinal);
        Assert.Empty(await shop.TapsAsync());
    }

    [Fact]
    public async Task QueuedTap_OfSomeMinutesAgo_IsToldWhenItWasPressed()
    {
        await using ServedShop shop = await Thumb.OpenWithCarAsync();
        await shop.PassAsync(30);
        using HttpResponseMessage answer = await shop.SubmitAsync(
            $"{Thumb.Car}/taps", ("number", "0"), ("did", "wetted"), ("ago", "5"), ("pressedAt", "2026-05-04T08:20:00.000Z"));
        answer.AssertSeesOther(Thumb.Car);
        JsonElement tap = Assert.Single(await shop.TapsAsync());
        Assert.Equal(("2026-05-04T08:15:00Z", "2026-05-04T08:20:00Z"), (tap.Of("at"), tap.Of("reportedAt")));
    }

    // A service that hung takes both, in whatever order.
    [Theory]
    [InlineData("promptAt", "pressedAt")]
    [InlineData("pressedAt", "promptAt")]
    public async Task Tap_ThatWasLongOnItsWay_IsToldWhenItWasPressed_AndOnce(string first, string second)
    {
        const string Pressed = "2026-05-04T08:02:03.000Z";
        await using ServedShop shop = await Thumb.OpenWithCarAsync();
        await shop.PassAsync(10);
        foreach (string name in (string[])[first, second])
        {
            (await shop.SubmitAsync($"{Thumb.Car}/taps", ("number", "0"), ("did", "wetted"), ("press", "p1"), (name, Pressed))).AssertSeesOther(Thumb.Car);
        }

        Assert.Equal(Pressed.Replace(".000", "", StringComparison.Ordinal), Assert.Single(await shop.TapsAsync()).Of("at"));
    }

    [Theory]
    [InlineData(-20)]
    [InlineData(90)]
    public async Task Tap_ThatIsSentAtOnce_IsOfTheServicesClock(int pageIsAheadSeconds)
    {
        await using ServedShop shop = await Thumb.OpenWithCarAsync();
        string pressed = $"{shop.Clock.GetUtcNow().AddSeconds(pageIsAheadSeconds):yyyy-MM-dd'T'HH:mm:ss.fff'Z'}";
        (await shop.SubmitAsync($"{Thumb.Car}/taps", ("number", "0"), ("did", "wetted"), ("promptAt", pressed))).AssertSeesOther(Thumb.Car);
        Assert.True(DateTimeOffset.Parse(Assert.Single(await shop.TapsAsync()).Of("at")!, System.Globalization.CultureInfo.InvariantCulture) <= shop.Clock.GetUtcNow());
    }

    private static async Task SendAsync(ServedShop shop, string number, string did, string pressedAt)
    {
        using HttpResponseMessage answer = await shop.SubmitAsync(
            $"{Thumb.Car}/taps", ("number", number), ("surface", "bonnet"), ("layer", "1"), ("section", "1"), ("did", did), ("pressedAt", pressedAt));
        answer.AssertSeesOther(Thumb.Car);
    }
}
