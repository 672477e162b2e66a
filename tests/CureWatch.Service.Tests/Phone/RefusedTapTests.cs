using System.Net;
using System.Text.Json;
using CureWatch.Service.Tests.Api;
using CureWatch.Service.Tests.Board;

namespace CureWatch.Service.Tests.Phone;

/// <summary>A form that was not taken, without a script: it says why where it stands, and nobody fills it in again.</summary>
public class RefusedTapTests
{
    [Fact]
    public async Task WhatElseIsTold_KeepsWhatWasFilledIn_AndWhenItWas()
    {
        await using ServedShop shop = await Thumb.OpenWithCarAsync();
        await shop.PassAsync(30);
        (string, string)[] filled = [("panel", "spot"), ("did", "measured"), ("surface", "bonnet"), ("panelC", "25.5"), ("unit", "C"), ("note", "by the door")];
        string html = await RefusedAsync(shop, [.. filled, ("section", "9"), ("ago", "10")]);
        string spot = html[html.IndexOf("id=\"spot\"", StringComparison.Ordinal)..html.IndexOf("id=\"before\"", StringComparison.Ordinal)];
        Assert.Contains("That was not taken Section: saw 9; allowed: a section of bonnet: 1 to 2", Forms.Words(spot), StringComparison.Ordinal);
        Assert.Contains("value=\"25.5\"", spot, StringComparison.Ordinal);
        Assert.Contains("value=\"by the door\"", spot, StringComparison.Ordinal);
        Assert.Matches("<option value=\"2026-05-04T08:21:00Z\" selected>09:21<", spot);
        await shop.PassAsync(5);
        using HttpResponseMessage again = await shop.SubmitAsync($"{Thumb.Car}/taps", [.. filled, ("section", "2"), ("ago", "2026-05-04T08:21:00Z")]);
        again.AssertSeesOther(Thumb.Car);
        JsonElement tap = (await shop.TapsAsync())[^1];
        Assert.Equal(("2026-05-04T08:21:00Z", "2", "25.5"), (tap.Of("at"), tap.Of("section"), tap.Of("panelC")));
    }

    [Fact]
    public async Task Correction_IsOpenWhereItWas_WithWhatWasFilledIn()
    {
        await using ServedShop shop = await Thumb.OpenWithCarAsync();
        await shop.TellAsync("panel-wiped");
        await shop.PassAsync(20);
        await shop.TellAsync("applied");
        string id = (await shop.TapsAsync())[^1].Of("id")!;
        string html = await RefusedAsync(
            shop, ("corrects", id), ("did", "applied"), ("at", "2026-05-04T08:21:00Z"), ("surface", "bonnet"), ("layer", "1"), ("section", "2"), ("begunAt", "2026-05-04T09:59"));
        Assert.Contains($"taps#told-{id}", html, StringComparison.Ordinal);
        Assert.Matches("<details open[^>]*>\\s*<summary>Correct it", html);
        Assert.Contains("value=\"2026-05-04T09:59\"", html, StringComparison.Ordinal);
        Assert.Matches("<option selected>2</option>", html);
        Assert.Contains("The first wipe, 09:59, comes before the last, and by a day at most.", Forms.Words(html), StringComparison.Ordinal);
    }

    [Fact]
    public async Task CorrectionOfWhatCountsNoMore_SaysWhy()
    {
        await using ServedShop shop = await Thumb.OpenWithCarAsync();
        await shop.TellAsync("panel-wiped");
        string id = (await shop.TapsAsync())[0].Of("id")!;
        await shop.TellAsync("withdrawn");
        string html = await RefusedAsync(shop, ("number", "2"), ("corrects", id), ("did", "panel-wiped"), ("doneAt", "yesterday"));
        Assert.Contains("When: a number of minutes up to 1440, or a time that the shop's clocks show.", Forms.Words(html), StringComparison.Ordinal);
    }

    [Fact]
    public async Task Spot_OfACarThatCameInCold_StaysInItsField()
    {
        await using ServedShop shop = await Thumb.OpenWithCarAsync();
        string html = await RefusedAsync(shop, ("panel", "arrival"), ("did", "measured"), ("surface", "bonnet"), ("panelC", "999"), ("unit", "F"));
        Assert.Contains("Measured: saw 999; allowed: a number -76 to 392 °F", Forms.Words(html), StringComparison.Ordinal);
    }

    [Fact]
    public async Task Refusal_IsSaidInTheReadersTongue()
    {
        await using ServedShop shop = await Thumb.OpenWithCarAsync();
        using HttpResponseMessage answer = await shop.SendAsync(
            HttpMethod.Post,
            $"{Thumb.Car}/taps",
            new FormUrlEncodedContent([new("did", "wetted"), new("surface", "bonnet"), new("section", "9")]),
            ("Origin", shop.Address.GetLeftPart(UriPartial.Authority)),
            ("Accept-Language", "de"));
        Assert.Contains("Abschnitt: da steht 9; erlaubt: ein Abschnitt von bonnet: 1 bis 2", await answer.WordsAsync(), StringComparison.Ordinal);
    }

    private static async Task<string> RefusedAsync(ServedShop shop, params (string, string)[] fields)
    {
        using HttpResponseMessage answer = await shop.SubmitAsync($"{Thumb.Car}/taps", fields);
        Assert.Equal(HttpStatusCode.BadRequest, answer.StatusCode);
        string html = await answer.Content.ReadAsStringAsync(TestContext.Current.CancellationToken);
        Assert.DoesNotContain($"href=\"{Thumb.Car}/taps\"", html, StringComparison.Ordinal); // nothing is there to be loaded again
        return html;
    }
}
