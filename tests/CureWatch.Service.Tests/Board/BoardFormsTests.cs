using System.Net;
using System.Text.Json;
using CureWatch.Service.Tests.Api;

namespace CureWatch.Service.Tests.Board;

public class BoardFormsTests
{
    private static readonly (string Name, string Value)[] Start =
    [
        ("number", "0"), ("car", "Grey estate, 2nd visit"), ("bay", "bay-1"), ("promised", "2026-05-05T10:00"),
        ("surface", "Bonnet (left)"), ("material", "steel"), ("over", ""), ("place", "outside"), ("product", "paint"), ("layers", "2"), ("sections", "3"),
        ("surface", "bumper"), ("material", "film"), ("over", "plastic"), ("place", "outside"), ("product", "paint"), ("layers", "1"), ("sections", "1"),
        ("surface", ""), ("material", ""), ("over", ""), ("place", "outside"), ("product", ""), ("layers", "1"), ("sections", "1"),
    ];

    [Fact]
    public async Task StartForm_StartsTheCar()
    {
        await using ServedShop shop = await ServedShop.OpenAsync();
        using HttpResponseMessage answer = await shop.SubmitAsync("/start", Start);
        answer.AssertSeesOther("/#car-grey-estate-2nd-visit");
        JsonElement job = (await shop.GetAsync("/api/v1/jobs")).GetProperty("jobs")[0];
        Assert.Equal("Grey estate, 2nd visit", job.GetProperty("car").GetString());
        Assert.Equal("2026-05-05T09:00:00Z", job.GetProperty("promisedAt").GetString()); // ten o'clock in Dublin in May
        string words = await shop.WordsAsync("/");
        Assert.Contains("bonnet-left, layer 1, section 1 of 3", words, StringComparison.Ordinal);
    }

    [Fact]
    public async Task StartForm_SentTwice_StartsOneCar_ButTheNextCarOfThatNameIsAnother()
    {
        await using ServedShop shop = await ServedShop.OpenAsync();
        using HttpResponseMessage first = await shop.SubmitAsync("/start", Start);
        using HttpResponseMessage again = await shop.SubmitAsync("/start", Start);
        again.AssertSeesOther("/#car-grey-estate-2nd-visit");
        using HttpResponseMessage next = await shop.SubmitAsync("/start", [("number", "1"), .. Start[1..]]);
        next.AssertSeesOther("/#car-grey-estate-2nd-visit-2");
        Assert.Equal(2, (await shop.GetAsync("/api/v1/jobs")).GetProperty("jobs").GetArrayLength());
    }

    [Fact]
    public async Task StartForm_WithFaults_NamesThemAndKeepsWhatWasPutIn()
    {
        await using ServedShop shop = await ServedShop.OpenAsync();
        (string, string)[] faulty = [.. Start.Select(f => f.Name is "product" or "layers" ? (f.Name, f.Name == "layers" ? "many" : "") : f)];
        using HttpResponseMessage answer = await shop.SubmitAsync("/start", faulty);
        Assert.Equal(HttpStatusCode.BadRequest, answer.StatusCode);
        string html = await answer.Content.ReadAsStringAsync(TestContext.Current.CancellationToken);
        string words = Forms.Words(html);
        Assert.Contains("Bonnet (left), Product", words, StringComparison.Ordinal);
        Assert.Contains("bumper, Layers: saw \"many\"", words, StringComparison.Ordinal);
        Assert.Contains("value=\"Bonnet (left)\"", html, StringComparison.Ordinal);
        Assert.Equal(0, (await shop.GetAsync("/api/v1/jobs")).GetProperty("jobs").GetArrayLength());
    }

    [Theory]
    [InlineData("2026-03-29T01:30")] // the clocks skip it
    [InlineData("tomorrow")]
    public async Task StartForm_WithATimeThatIsNone_SaysSo(string promised)
    {
        await using ServedShop shop = await ServedShop.OpenAsync();
        using HttpResponseMessage answer = await shop.SubmitAsync("/start", [.. Start.Select(f => f.Name == "promised" ? (f.Name, promised) : f)]);
        Assert.Equal(HttpStatusCode.BadRequest, answer.StatusCode);
        Assert.Contains("no time that the clocks in Europe/Dublin show", await answer.WordsAsync(), StringComparison.Ordinal);
    }

    [Fact]
    public async Task StartForm_AskedForMoreRows_KeepsWhatWasPutIn()
    {
        await using ServedShop shop = await ServedShop.OpenAsync();
        using HttpResponseMessage answer = await shop.SubmitAsync("/start", [("more", "1"), .. Start]);
        Assert.Equal(HttpStatusCode.OK, answer.StatusCode);
        string html = await answer.Content.ReadAsStringAsync(TestContext.Current.CancellationToken);
        Assert.Equal(9, html.Split("<fieldset").Length - 1);
        Assert.Contains("value=\"Bonnet (left)\"", html, StringComparison.Ordinal);
    }

    [Fact]
    public async Task Button_PressedTwice_TellsOneTap()
    {
        await using ServedShop shop = await WithCarAsync();
        (string, string)[] press = [("number", "0"), ("surface", "bonnet"), ("layer", "1"), ("section", "1"), ("did", "applied")];
        using HttpResponseMessage first = await shop.SubmitAsync("/jobs/grey-estate/taps", press);
        shop.Clock.Advance(TimeSpan.FromSeconds(1));
        using HttpResponseMessage second = await shop.SubmitAsync("/jobs/grey-estate/taps", press);
        second.AssertSeesOther("/#car-grey-estate");
        Assert.Equal(1, (await shop.GetAsync("/api/v1/jobs/grey-estate/taps")).GetProperty("taps").GetArrayLength());
    }

    [Theory]
    [InlineData("inspected:clear", "inspected", "clear", null)]
    [InlineData("inspected:water-mark", "inspected", "water-mark", null)]
    [InlineData("reworked:re-wet", "reworked", null, "re-wet")]
    [InlineData("wetted", "wetted", null, null)]
    [InlineData("dried", "dried", null, null)]
    public async Task TapForm_TellsWhatWasPressed(string pressed, string did, string? found, string? how)
    {
        await using ServedShop shop = await WithCarAsync();
        using HttpResponseMessage answer = await shop.SubmitAsync(
            "/jobs/grey-estate/taps", ("number", "0"), ("surface", ""), ("layer", ""), ("section", ""), ("ago", "3"), ("by", " Sam "), ("did", pressed));
        answer.AssertSeesOther("/#car-grey-estate");
        JsonElement tap = (await shop.GetAsync("/api/v1/jobs/grey-estate/taps")).GetProperty("taps")[0];
        Assert.Equal(
            (did, found, how, "Sam", "2026-05-04T07:57:00Z", null),
            (Text("did"), Text("found"), Text("how"), Text("by"), Text("at"), Text("surface")));

        string? Text(string key) => tap.GetProperty(key).GetString();
    }

    [Fact]
    public async Task TapForm_WithAFault_KeepsWhatWasFilledIn()
    {
        await using ServedShop shop = await WithCarAsync();
        using HttpResponseMessage answer = await shop.SubmitAsync(
            "/jobs/grey-estate/taps", ("number", "0"), ("surface", "bonnet"), ("layer", "7"), ("section", "99"), ("ago", "12"), ("panelC", "68"), ("unit", "F"), ("by", "Sam"), ("did", "measured"));
        string page = await answer.Content.ReadAsStringAsync(TestContext.Current.CancellationToken);
        Assert.Equal(HttpStatusCode.BadRequest, answer.StatusCode);
        Assert.All(
            ["<option selected>bonnet", "name=\"layer\" value=\"7\"", "name=\"section\" value=\"99\"", "name=\"ago\" value=\"12\"", "name=\"panelC\" value=\"68\"", "<option value=\"F\" selected>", "name=\"by\" value=\"Sam\""],
            filled => Assert.Contains(filled, page, StringComparison.Ordinal));
    }

    [Fact]
    public async Task HandOverForm_WithAFault_KeepsWhatWasFilledIn()
    {
        await using ServedShop shop = await WithCarAsync();
        string despite = new('y', 250);
        using HttpResponseMessage answer = await shop.SubmitAsync("/jobs/grey-estate/handover", ("by", "Sam"), ("despite", despite));
        string page = await answer.Content.ReadAsStringAsync(TestContext.Current.CancellationToken);
        Assert.Equal(HttpStatusCode.BadRequest, answer.StatusCode);
        Assert.Contains($"name=\"despite\" value=\"{despite}\"", page, StringComparison.Ordinal);
        Assert.Contains("name=\"by\" value=\"Sam\"", page, StringComparison.Ordinal);
    }

    [Theory]
    [InlineData("did", "painted", "did: saw")]
    [InlineData("layer", "first", "Layer: saw")]
    [InlineData("surface", "roof", "Surface: saw")]
    [InlineData("ago", "-1", "When: a number of minutes")]
    [InlineData("ago", "99999", "When: a number of minutes")]
    [InlineData("doneAt", "2026-05-04T23:00", "It was done 23:00, and that is yet to come: it is ")]
    public async Task TapForm_WithAFault_NamesIt(string field, string value, string fault)
    {
        await using ServedShop shop = await WithCarAsync();
        (string, string)[] fields = [("number", "0"), ("did", "wetted"), (field, value)];
        using HttpResponseMessage answer = await shop.SubmitAsync("/jobs/grey-estate/taps", [.. fields.Where(f => f.Item1 != field || f.Item2 == value)]);
        Assert.Equal(HttpStatusCode.BadRequest, answer.StatusCode);
        Assert.Contains(fault, await answer.WordsAsync(), StringComparison.Ordinal);
    }

    [Fact]
    public async Task HandoverForm_OfAHeldCar_ListsEveryHold_AndDespiteLetsItGo()
    {
        await using ServedShop shop = await WithCarAsync();
        using HttpResponseMessage held = await shop.SubmitAsync("/jobs/grey-estate/handover", ("by", "Robin"), ("despite", " "));
        Assert.Equal(HttpStatusCode.Conflict, held.StatusCode);
        string words = await held.WordsAsync();
        Assert.Contains("That was not taken", words, StringComparison.Ordinal);
        Assert.Contains("wheels, layer 1, section 1: Planned, not applied", words, StringComparison.Ordinal);
        using HttpResponseMessage left = await shop.SubmitAsync("/jobs/grey-estate/handover", ("by", "Robin"), ("despite", "it rains"));
        left.AssertSeesOther("/");
        Assert.DoesNotContain("grey estate", await shop.WordsAsync("/"), StringComparison.Ordinal);
        Assert.Contains("grey estate has left", await shop.WordsAsync("/jobs/grey-estate"), StringComparison.Ordinal);
    }

    [Theory]
    [InlineData("/start")]
    [InlineData("/jobs/grey-estate/taps")]
    [InlineData("/jobs/grey-estate/handover")]
    public async Task Form_OfAForeignPage_IsRefused(string action)
    {
        await using ServedShop shop = await WithCarAsync();
        foreach ((string name, string value) in new[] { ("Origin", "http://evil.example"), ("Origin", "null"), ("Sec-Fetch-Site", "cross-site"), ("X-Nothing", "") })
        {
            using HttpResponseMessage answer = await shop.SendAsync(
                HttpMethod.Post, action, new FormUrlEncodedContent([KeyValuePair.Create("did", "wetted"), KeyValuePair.Create("despite", "x")]), (name, value));
            await answer.DocumentAsync(HttpStatusCode.Forbidden);
        }

        Assert.Equal(0, (await shop.GetAsync("/api/v1/jobs/grey-estate/taps")).GetProperty("taps").GetArrayLength());
    }

    [Fact]
    public async Task Form_ThatIsNone_IsRefused()
    {
        await using ServedShop shop = await WithCarAsync();
        using HttpResponseMessage json = await shop.SendAsync(HttpMethod.Post, "/jobs/grey-estate/taps", Asked.Json("{}"));
        Assert.Equal(HttpStatusCode.BadRequest, json.StatusCode);
        Assert.Contains("That was no form", await json.WordsAsync(), StringComparison.Ordinal);
        using HttpResponseMessage many = await shop.SubmitAsync("/start", [.. Enumerable.Range(0, 2000).Select(i => ($"k{i}", "v"))]);
        Assert.Equal(HttpStatusCode.BadRequest, many.StatusCode);
        using HttpResponseMessage huge = await shop.SubmitAsync("/start", ("car", new string('x', 300_000)));
        Assert.Equal(HttpStatusCode.RequestEntityTooLarge, huge.StatusCode);
        using HttpResponseMessage nobody = await shop.SubmitAsync("/jobs/nobody/taps", ("did", "wetted"));
        Assert.Equal(HttpStatusCode.NotFound, nobody.StatusCode);
    }

    private static async Task<ServedShop> WithCarAsync()
    {
        ServedShop shop = await ServedShop.OpenAsync();
        await shop.PostAsync("/api/v1/jobs", Asked.Car, HttpStatusCode.Created);
        return shop;
    }
}
