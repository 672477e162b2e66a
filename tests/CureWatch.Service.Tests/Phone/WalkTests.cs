using System.Net;
using System.Text.Json;
using CureWatch.Service.Tests.Api;
using CureWatch.Service.Tests.Board;

namespace CureWatch.Service.Tests.Phone;

/// <summary>The one big button, from the address to the last section.</summary>
public class WalkTests
{
    [Fact]
    public async Task FromTheAddressToTheFirstSection_TakesAFewTaps_WithoutAScript()
    {
        await using ServedShop shop = await ServedShop.OpenAsync();
        await shop.PassAsync(1);
        int taps = 0;
        Assert.Contains("href=\"/bay/bay-1\"", await FollowedAsync("/bay"), StringComparison.Ordinal);
        Assert.Contains("href=\"/bay/bay-1/start\"", await FollowedAsync("/bay/bay-1"), StringComparison.Ordinal);
        string form = await FollowedAsync("/bay/bay-1/start");
        taps += 2; // bonnet ticked, Start; the name is typed where the cursor stands
        using HttpResponseMessage started = await shop.SubmitAsync("/bay/bay-1/start", [("car", "Grey estate"), ("pick", "0"), .. FieldsOf(form)]);
        started.AssertSeesOther("/bay/bay-1/jobs/grey-estate");
        await shop.TellAsync("panel-wiped");
        await shop.TellAsync("applied");
        taps += 2;
        JsonElement applied = (await shop.TapsAsync())[^1];
        Assert.Equal(("applied", "bonnet", "1", "1"), (applied.Of("did"), applied.Of("surface"), applied.Of("layer"), applied.Of("section")));
        Assert.InRange(taps, 1, 12);

        async Task<string> FollowedAsync(string path)
        {
            taps += path == "/bay" ? 0 : 1; // the address is no tap
            return await shop.TextAsync(path);
        }
    }

    [Fact]
    public async Task Walk_OfAWholeCar_IsOneButtonAfterTheOther_UntilNothingIsLeftButToWait()
    {
        await using ServedShop shop = await Thumb.OpenWithCarAsync();
        var told = new List<string>();
        for (int press = 0; press < 12 && await NextAsync(shop) is { } did; press++)
        {
            told.Add(did);
            await shop.TellAsync(did);
            await shop.PassAsync(1);
        }

        Assert.Equal(3, told.Count(d => d == "applied"));
        Assert.Equal(3, told.Count(d => d == "levelled"));
        Assert.DoesNotContain("reworked:re-wet", told);
        Assert.Null(await NextAsync(shop));
        Assert.Matches("second look under light from [0-9:]+", await shop.WordsAsync(Thumb.Car));
    }

    [Fact]
    public async Task Flashing_FillsTheScreenWithThatAlone_AndLateAsksForReWet()
    {
        await using ServedShop shop = await Thumb.OpenWithCarAsync();
        await shop.TellAsync("panel-wiped");
        Assert.Contains("Can I start?", await shop.WordsAsync(Thumb.Car), StringComparison.Ordinal);
        await shop.TellAsync("applied");
        await shop.PassAsync(4);
        string words = await shop.WordsAsync(Thumb.Car);
        Assert.DoesNotContain("Can I start?", words, StringComparison.Ordinal);
        Assert.Matches(@"bonnet, section 1: look now, level by \d\d:\d\d Level by", words);
        string page = await shop.TextAsync(Thumb.Car);
        Assert.Matches("data-call=\"bonnet-1-1-2026-05-04T08:[^\"]*Z\" data-coat=\"bonnet, section 1 of 2\" data-late=\"re-wet and level now\" data-look=\"2026-05-04T08:[^\"]*Z\" data-by=\"2026-05-04T08:[^\"]*Z\"", page);
        await shop.PassAsync(12);
        Assert.Contains("Re-wet and level now", await shop.WordsAsync(Thumb.Car), StringComparison.Ordinal);
        await shop.TellAsync("reworked:re-wet");
    }

    [Fact]
    public async Task Flashing_GoesBeforeWhatCannotBeBegun()
    {
        await using ServedShop shop = await Thumb.OpenWithCarAsync();
        foreach (string did in new[] { "panel-wiped", "applied" }) // at once, before the wipe's solvent has left
        {
            using HttpResponseMessage told = await shop.SubmitAsync(
                $"{Thumb.Car}/taps", ("number", "0"), ("did", did), ("surface", "bonnet"), ("layer", "1"), ("section", did == "applied" ? "1" : ""));
            told.AssertSeesOther(Thumb.Car);
        }

        await shop.PassAsync(1);
        string words = await shop.WordsAsync(Thumb.Car);
        Assert.Contains("bonnet, section 2: apply paint when it is ready. Not yet", words, StringComparison.Ordinal);
        Assert.True(words.IndexOf("bonnet, section 1: look", StringComparison.Ordinal) < words.IndexOf("bonnet, section 2: apply", StringComparison.Ordinal));
    }

    [Fact]
    public async Task SpotReadOnArrival_IsToldFromTheSamePage()
    {
        await using ServedShop shop = await Thumb.OpenWithCarAsync();
        Assert.Contains("Come in cold?", await shop.WordsAsync(Thumb.Car), StringComparison.Ordinal);
        await shop.TellAsync("measured", ("surface", "wheels"), ("panelC", "-2,5")); // with a decimal comma, as half of Europe writes
        JsonElement tap = Assert.Single(await shop.TapsAsync());
        Assert.Equal(("wheels", "-2.5"), (tap.Of("surface"), tap.Of("panelC")));
    }

    /// <summary>Whose thermometer shows °F chooses it beside the number; told as °C it had been a panel hotter than any lamp makes it.</summary>
    [Fact]
    public async Task SpotReadInFahrenheit_IsTheSameSpot_AndOnWhatIsBrightItIsSuspect()
    {
        await using ServedShop shop = await Thumb.OpenWithCarAsync();
        await shop.TellAsync("measured", ("surface", "bonnet"), ("panelC", "68"), ("unit", "F"));
        JsonElement tap = Assert.Single(await shop.TapsAsync());
        Assert.Equal(("bonnet", "20"), (tap.Of("surface"), tap.Of("panelC")));
        Assert.Contains("measured, 20 °C (suspect: what is bright", await shop.WordsAsync($"{Thumb.Car}/told"), StringComparison.Ordinal);
    }

    [Fact]
    public async Task SecondLook_TellsWhatWasFound_AndWhatWasDoneAboutIt()
    {
        await using ServedShop shop = await Thumb.OpenWithCarAsync(
            """{"job":"grey-estate","bay":"bay-1","surfaces":[{"surface":"bonnet","material":"steel","product":"paint"}]}""");
        foreach (string did in new[] { "panel-wiped", "applied", "levelled" })
        {
            await shop.TellAsync(did);
            await shop.PassAsync(3);
        }

        await shop.PassAsync(60);
        await shop.TellAsync("inspected:high-spot");
        Assert.Contains("something was found", await shop.WordsAsync(Thumb.Car), StringComparison.Ordinal);
        await shop.TellAsync("reworked:wiped");
        JsonElement[] taps = await shop.TapsAsync();
        Assert.Equal(("high-spot", "bonnet"), (taps[^2].Of("found"), taps[^2].Of("surface")));
        Assert.Equal(("wiped", "bonnet"), (taps[^1].Of("how"), taps[^1].Of("surface")));
    }

    [Fact]
    public async Task TwoPhones_ThatPressTheSame_TellOneTap()
    {
        await using ServedShop shop = await Thumb.OpenWithCarAsync();
        await shop.TellAsync("panel-wiped");
        (string, string)[] seen = [("number", "1"), ("surface", "bonnet"), ("layer", "1"), ("section", "1"), ("did", "applied")];
        foreach (int _ in Enumerable.Range(0, 2))
        {
            using HttpResponseMessage answer = await shop.SubmitAsync($"{Thumb.Car}/taps", seen);
            answer.AssertSeesOther(Thumb.Car);
            shop.Clock.Advance(TimeSpan.FromSeconds(20));
        }

        Assert.Equal(2, (await shop.TapsAsync()).Length);
    }

    private static async Task<string?> NextAsync(ServedShop shop)
    {
        string page = await shop.TextAsync(Thumb.Car);
        return new[] { "panel-wiped", "applied", "levelled", "reworked:re-wet" }
            .Select(did => (Did: did, At: page.IndexOf($"name=\"did\" value=\"{did}\" class=\"press\"", StringComparison.Ordinal)))
            .Where(b => b.At >= 0).OrderBy(b => b.At).Select(b => b.Did).FirstOrDefault();
    }

    /// <summary>What a browser sends of the form as it was opened, each row in turn.</summary>
    internal static IEnumerable<(string Name, string Value)> FieldsOf(string page)
    {
        string form = page[page.IndexOf("class=\"begin\"", StringComparison.Ordinal)..page.IndexOf("start-bar", StringComparison.Ordinal)];
        foreach (System.Text.RegularExpressions.Match field in System.Text.RegularExpressions.Regex.Matches(
            form,
            """<input(?: type="(?:hidden|number)")? name="(?<name>[^"]*)"(?: type="[a-z-]*")?(?: min="\d+" max="\d+")? value="(?<value>[^"]*)"|<select name="(?<name>[^"]*)">(?<options>.*?)</select>""",
            System.Text.RegularExpressions.RegexOptions.Singleline))
        {
            string name = field.Groups["name"].Value, options = field.Groups["options"].Value;
            if (name is "car" or "promised")
            {
                continue;
            }

            System.Text.RegularExpressions.Match chosen = System.Text.RegularExpressions.Regex.Match(options, """<option(?: value="(?<value>[^"]*)")? selected>(?<text>[^<]*)""");
            yield return (name, WebUtility.HtmlDecode(
                !field.Groups["options"].Success ? field.Groups["value"].Value
                : !chosen.Success ? (name == "place" ? "outside" : "")
                : chosen.Groups["value"].Success ? chosen.Groups["value"].Value : chosen.Groups["text"].Value));
        }
    }
}
