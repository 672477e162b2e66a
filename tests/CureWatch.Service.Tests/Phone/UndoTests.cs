using System.Net;
using System.Text.Json;
using CureWatch.Service.Tests.Api;
using CureWatch.Service.Tests.Board;

namespace CureWatch.Service.Tests.Phone;

public class UndoTests
{
    [Fact]
    public async Task Slip_TakenBackWithinTwoMinutes_WasNeverTold_AndHoldsNothing()
    {
        await using ServedShop shop = await Thumb.OpenWithCarAsync();
        await shop.TellAsync("panel-wiped");
        await shop.PassAsync(4); // until the wipe's solvent has left
        await shop.TellAsync("applied");
        await shop.PassAsync(1);
        await shop.TellAsync("withdrawn");
        Assert.Contains("bonnet, section 1: apply paint now", await shop.WordsAsync(Thumb.Car), StringComparison.Ordinal);
        Assert.Equal(["panel-wiped", "applied", "withdrawn"], (await shop.TapsAsync()).Select(t => t.Of("did")));
        Assert.DoesNotContain("reported-late", (await shop.GetAsync("/api/v1/jobs/grey-estate/handover")).GetRawText(), StringComparison.Ordinal);
    }

    [Fact]
    public async Task Undo_IsThereForTwoMinutes_AndOfOneTapAfterTheOther()
    {
        await using ServedShop shop = await Thumb.OpenWithCarAsync();
        await shop.TellAsync("panel-wiped");
        await shop.TellAsync("applied");
        Assert.Contains("Told: bonnet, layer 1, section 1: applied", await shop.WordsAsync(Thumb.Car), StringComparison.Ordinal);
        await shop.TellAsync("withdrawn");
        Assert.Contains("Told: bonnet, layer 1: wiped down", await shop.WordsAsync(Thumb.Car), StringComparison.Ordinal);
        shop.Clock.Advance(TimeSpan.FromSeconds(121));
        Assert.DoesNotContain("Take back", await shop.WordsAsync(Thumb.Car), StringComparison.Ordinal);
        await shop.TellAsync("applied");
        Assert.Equal(4, (await shop.TapsAsync()).Length);
    }

    [Fact]
    public async Task CorrectionOfATime_TakesItsPlace_IsHeldUntilLookedAt_AndKeepsWhatElseWasTold()
    {
        await using ServedShop shop = await Thumb.OpenWithCarAsync();
        await shop.TellAsync("panel-wiped");
        await shop.TellAsync("applied");
        await shop.PassAsync(5);
        string page = await shop.TextAsync($"{Thumb.Car}/told");
        Assert.Contains("value=\"2026-05-04T09:01:00\"", page, StringComparison.Ordinal); // Dublin in May is an hour ahead
        JsonElement first = (await shop.TapsAsync())[1];
        using HttpResponseMessage answer = await shop.SubmitAsync(
            $"{Thumb.Car}/taps", ("number", "2"), ("corrects", first.Of("id")!), ("did", "applied"), ("surface", "bonnet"), ("layer", "1"), ("section", "1"), ("doneAt", "2026-05-04T09:00:20"));
        answer.AssertSeesOther(Thumb.Car);
        JsonElement tap = (await shop.TapsAsync())[^1];
        Assert.Equal(("2026-05-04T08:00:20Z", first.Of("id")), (tap.Of("at"), tap.Of("corrects")));
        Assert.Contains("reported-late", (await shop.GetAsync("/api/v1/jobs/grey-estate/handover")).GetRawText(), StringComparison.Ordinal);
        string words = await shop.WordsAsync($"{Thumb.Car}/told");
        Assert.Contains("bonnet, layer 1, section 1: applied 09:00", words, StringComparison.Ordinal);
    }

    // A push-button has no layers to choose from.
    [Theory]
    [InlineData("It was then", "doneAt", "2026-05-04T09:03:00")]
    [InlineData("It was that batch", "batch", "A")]
    public async Task TapThatNamedNoLayer_OfSeveral_CanBePutRight(string words, string field, string value)
    {
        await using ServedShop shop = await Thumb.OpenWithCarAsync(Asked.Car.Replace("\"sections\":2", "\"layers\":2", StringComparison.Ordinal));
        await shop.PassAsync(5);
        await shop.PostAsync("/api/v1/jobs/grey-estate/taps", """{"id":"b1","at":"2026-05-04T08:05:00Z","did":"applied","surface":"bonnet"}""", HttpStatusCode.Created);
        await shop.CorrectAsync(words, (field, value));
        JsonElement tap = (await shop.TapsAsync())[^1];
        Assert.Equal(("b1", "bonnet"), (tap.Of("corrects"), tap.Of("surface")));
    }

    // The form has no field for the first wipe: who says that the last was before it means both.
    [Fact]
    public async Task CorrectionToBeforeTheFirstWipe_TakesTheFirstWipeAlong()
    {
        await using ServedShop shop = await Thumb.OpenWithCarAsync();
        await shop.TellAsync("panel-wiped");
        await shop.PassAsync(15);
        await shop.TellAsync("applied", ("startedAt", "2026-05-04T08:15:30Z"));
        await shop.CorrectAsync("It was then", ("doneAt", "2026-05-04T09:05:00"));
        JsonElement tap = (await shop.TapsAsync())[^1];
        Assert.Equal(("2026-05-04T08:05:00Z", "2026-05-04T08:04:30Z"), (tap.Of("at"), tap.Of("startedAt")));
    }

    [Fact]
    public async Task CorrectionOfASection_MovesTheCoatThere_AndItsTimeStays()
    {
        await using ServedShop shop = await Thumb.OpenWithCarAsync();
        await shop.TellAsync("panel-wiped");
        await shop.PassAsync(4);
        await shop.TellAsync("applied");
        await shop.PassAsync(5);
        Assert.Matches("<option selected>1</option>\\s*<option>2</option>", await shop.TextAsync($"{Thumb.Car}/told"));
        await shop.CorrectAsync("It was there", ("surface", "bonnet"), ("layer", "1"), ("section", "2"), ("begunAt", ""));
        JsonElement[] taps = await shop.TapsAsync();
        Assert.Equal(("bonnet", "1", "2", null, taps[^2].Of("id")), (taps[^1].Of("surface"), taps[^1].Of("layer"), taps[^1].Of("section"), taps[^1].Of("startedAt") is "" ? null : "told", taps[^1].Of("corrects")));
        Assert.Equal(taps[^2].Of("at"), taps[^1].Of("at"));
        Assert.Contains("bonnet, section 2: look now", await shop.WordsAsync(Thumb.Car), StringComparison.Ordinal);
        Assert.DoesNotContain("bonnet, section 1: look now", await shop.WordsAsync(Thumb.Car), StringComparison.Ordinal);
        Assert.Contains("reported-late", (await shop.GetAsync("/api/v1/jobs/grey-estate/handover")).GetRawText(), StringComparison.Ordinal);
    }

    [Theory]
    [InlineData("2026-05-04T09:15:30", "2026-05-04T08:15:30.25Z")] // as the field showed it
    [InlineData("2026-05-04T09:14", "2026-05-04T08:14:00Z")]
    [InlineData("", "")]
    public async Task CorrectionOfTheFirstWipe_ChangesThatAlone(string begunAt, string told)
    {
        await using ServedShop shop = await Thumb.OpenWithCarAsync();
        await shop.TellAsync("panel-wiped");
        await shop.PassAsync(15);
        await shop.TellAsync("applied", ("startedAt", "2026-05-04T08:15:30.25Z"));
        Assert.Contains("value=\"2026-05-04T09:15:30\"", await shop.TextAsync($"{Thumb.Car}/told"), StringComparison.Ordinal);
        await shop.CorrectAsync("It was there", ("surface", "bonnet"), ("layer", "1"), ("section", "1"), ("begunAt", begunAt));
        JsonElement tap = (await shop.TapsAsync())[^1];
        Assert.Equal(("2026-05-04T08:16:00Z", told, "1"), (tap.Of("at"), tap.Of("startedAt"), tap.Of("section")));
    }

    [Theory]
    [InlineData("yesterday")]
    [InlineData("2026-03-29T01:30")] // the clocks skip it
    public async Task CorrectionToNoTime_IsRefused(string doneAt)
    {
        await using ServedShop shop = await Thumb.OpenWithCarAsync();
        await shop.TellAsync("panel-wiped");
        string id = (await shop.TapsAsync())[0].Of("id")!;
        using HttpResponseMessage answer = await shop.SubmitAsync($"{Thumb.Car}/taps", ("number", "1"), ("corrects", id), ("did", "panel-wiped"), ("doneAt", doneAt));
        Assert.Equal(HttpStatusCode.BadRequest, answer.StatusCode);
        Assert.Single(await shop.TapsAsync());
    }

    [Fact]
    public async Task Withdrawn_WithoutWhatItTakesBack_IsRefused_ByName()
    {
        await using ServedShop shop = await Thumb.OpenWithCarAsync();
        await shop.AssertFaultyAsync("/api/v1/jobs/grey-estate/taps", """{"id":"w","at":"2026-05-04T08:01:00Z","did":"withdrawn"}""", "/corrects");
        await shop.AssertFaultyAsync("/api/v1/jobs/grey-estate/taps", """{"id":"w","at":"2026-05-04T08:01:00Z","did":"withdrawn","corrects":"nobody"}""", "/corrects");
    }
}
