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

    // The service had hung: the tap lay before its door, and was taken to be of when it went on.
    [Theory]
    [InlineData("2026-05-04T08:30:10.000Z", "2026-05-04T08:30:10Z")]
    [InlineData("2026-05-04T08:30:58.000Z", "2026-05-04T08:31:00Z")] // a moment
    [InlineData("2026-05-04T08:31:20.000Z", "2026-05-04T08:31:00Z")] // the page's clock is ahead
    [InlineData("now", "2026-05-04T08:31:00Z")]
    public async Task SentTap_ThatWasLongOnItsWay_IsOfWhenItWasPressed(string sentAt, string at)
    {
        await using ServedShop shop = await Thumb.OpenWithCarAsync();
        await shop.PassAsync(30);
        using HttpResponseMessage answer = await shop.SubmitAsync($"{Thumb.Car}/taps", ("number", "0"), ("press", "a1"), ("did", "wetted"), ("sentAt", sentAt));
        answer.AssertSeesOther(Thumb.Car);
        Assert.Equal(at, Assert.Single(await shop.TapsAsync()).Of("at"));
    }

    [Fact]
    public async Task SentTap_ThatWasMinutesOnItsWay_AndIsSentAgain_CountsOnce()
    {
        await using ServedShop shop = await Thumb.OpenWithCarAsync();
        await shop.PassAsync(30);
        foreach (string said in new[] { "sentAt", "pressedAt" })
        {
            using HttpResponseMessage answer = await shop.SubmitAsync(
                $"{Thumb.Car}/taps", ("number", "0"), ("press", "a1"), ("did", "wetted"), (said, "2026-05-04T08:20:00.000Z"));
            answer.AssertSeesOther(Thumb.Car);
        }

        Assert.Single(await shop.TapsAsync());
    }

    private static async Task SendAsync(ServedShop shop, string number, string did, string pressedAt)
    {
        using HttpResponseMessage answer = await shop.SubmitAsync(
            $"{Thumb.Car}/taps", ("number", number), ("surface", "bonnet"), ("layer", "1"), ("section", "1"), ("did", did), ("pressedAt", pressedAt));
        answer.AssertSeesOther(Thumb.Car);
    }
}
