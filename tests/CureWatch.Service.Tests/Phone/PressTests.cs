using System.Net;
using CureWatch.Service.Tests.Api;
using CureWatch.Service.Tests.Board;
using CureWatch.Service.Tests.People;

namespace CureWatch.Service.Tests.Phone;

/// <summary>What is one press, what are two, and whose they are.</summary>
public class PressTests
{
    [Fact]
    public async Task TwoPhones_ThatSawTheSamePage_TellATapEach()
    {
        await using ServedShop shop = await Thumb.OpenWithCarAsync();
        await shop.PassAsync(60);
        await PressAsync(shop, "a1", "wetted", "2026-05-04T08:10:00.000Z");
        await PressAsync(shop, "a2", "dried", "2026-05-04T08:15:00.000Z");
        await PressAsync(shop, "a3", "inspected:clear", "2026-05-04T08:20:00.000Z");
        await PressAsync(shop, "b1", "wetted", "2026-05-04T08:50:00.000Z");
        Assert.Equal(["wetted", "dried", "inspected", "wetted"], (await shop.TapsAsync()).Select(t => t.Of("did")));
    }

    [Fact]
    public async Task Press_SentAgain_CountsOnce_AlsoWhereItNowSaysWhenItWas()
    {
        await using ServedShop shop = await Thumb.OpenWithCarAsync();
        await PressAsync(shop, "a1", "wetted", "");
        await shop.PassAsync(3);
        await PressAsync(shop, "a1", "wetted", "2026-05-04T08:01:00.000Z");
        Assert.Single(await shop.TapsAsync());
    }

    [Fact]
    public async Task TwoPhones_BesideOneCoat_StartItsClockOnce()
    {
        await using ServedShop shop = await Thumb.OpenWithCarAsync();
        await PressAsync(shop, "a1", "applied", "");
        shop.Clock.Advance(TimeSpan.FromSeconds(20));
        await PressAsync(shop, "b1", "applied", "");
        Assert.Single(await shop.TapsAsync());
    }

    [Fact]
    public async Task ButtonWithoutAScript_PressedOnAnOldPage_IsNotTaken_AndSaysWhy()
    {
        await using ServedShop shop = await Thumb.OpenWithCarAsync();
        await PressAsync(shop, "", "wetted", "");
        await shop.PassAsync(40);
        using HttpResponseMessage again = await shop.SubmitAsync($"{Thumb.Car}/taps", ("number", "0"), ("did", "wetted"));
        Assert.Equal(HttpStatusCode.BadRequest, again.StatusCode);
        Assert.Contains("Somebody told the same before", await again.WordsAsync(), StringComparison.Ordinal);
        Assert.Single(await shop.TapsAsync());
    }

    [Fact]
    public async Task TwoTimes_ToldOfOnePage_AreTwoTaps()
    {
        await using ServedShop shop = await Thumb.OpenWithCarAsync();
        foreach (string promised in new[] { "2026-05-04T10:30:00Z", "2026-05-04T11:00:00Z", "2026-05-04T11:00:00Z" })
        {
            using HttpResponseMessage answer = await shop.SubmitAsync("/jobs/grey-estate/taps", ("number", "0"), ("did", "told"), ("promisedAt", promised));
            answer.AssertSeesOther("/#car-grey-estate");
        }

        Assert.Equal(["2026-05-04T10:30:00Z", "2026-05-04T11:00:00Z"], (await shop.TapsAsync()).Select(t => t.Of("promisedAt")));
    }

    [Fact]
    public async Task Tap_OfSomebodyElse_IsNotTaken_UntilTheyAreSignedInAgain()
    {
        await using ServedShop shop = await ServedShop.OpenWithPeopleAsync();
        using Browser manager = await Browser.OfManagerAsync(shop);
        using Browser tom = await Browser.OfTechnicianAsync(shop, manager);
        using HttpResponseMessage started = await tom.SendAsync(HttpMethod.Post, "/api/v1/jobs", Asked.Json(Asked.Car));
        Assert.Equal(HttpStatusCode.Created, started.StatusCode);
        using HttpResponseMessage refused = await tom.SendAsync($"{Thumb.Car}/taps", ("did", "wetted"), ("press", "a1"), ("who", "Maeve"));
        Assert.Equal(HttpStatusCode.Unauthorized, refused.StatusCode);
        Assert.Contains("Maeve pressed it, and Tom is signed in here now", await refused.WordsAsync(), StringComparison.Ordinal);
        using HttpResponseMessage taken = await manager.SendAsync($"{Thumb.Car}/taps", ("did", "wetted"), ("press", "a1"), ("who", "Maeve"));
        taken.AssertSeesOther(Thumb.Car);
        Assert.Contains("\"by\":\"Maeve\"", await tom.TextAsync("/api/v1/jobs/grey-estate/taps"), StringComparison.Ordinal);
    }

    [Fact]
    public async Task FaultyTap_OfACarThatHasLeft_DoesNotLookAsIfItHadBeenTaken()
    {
        await using ServedShop shop = await Thumb.OpenWithCarAsync();
        using HttpResponseMessage left = await shop.SubmitAsync("/jobs/grey-estate/handover", ("by", "Robin"), ("despite", "it rains"));
        left.AssertSeesOther("/");
        using HttpResponseMessage answer = await shop.SubmitAsync($"{Thumb.Car}/taps", ("number", "0"), ("press", "a1"), ("did", "painted"));
        Assert.Equal(HttpStatusCode.BadRequest, answer.StatusCode);
    }

    [Fact]
    public async Task Tap_InABayThatIsNoMore_IsNotToldHalf()
    {
        await using ServedShop shop = await Thumb.OpenWithCarAsync();
        using HttpResponseMessage answer = await shop.SubmitAsync("/bay/bay-9/jobs/grey-estate/taps", ("number", "0"), ("press", "a1"), ("did", "wetted"));
        Assert.Equal(HttpStatusCode.NotFound, answer.StatusCode);
        Assert.Empty(await shop.TapsAsync());
    }

    private static async Task PressAsync(ServedShop shop, string press, string did, string pressedAt)
    {
        using HttpResponseMessage answer = await shop.SubmitAsync(
            $"{Thumb.Car}/taps", ("number", "0"), ("press", press), ("did", did), ("pressedAt", pressedAt));
        answer.AssertSeesOther(Thumb.Car);
    }
}
