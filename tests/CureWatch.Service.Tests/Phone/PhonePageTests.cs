using System.Net;
using System.Text.Json;
using System.Text.RegularExpressions;
using CureWatch.Service.Tests.Api;
using CureWatch.Service.Tests.Board;

namespace CureWatch.Service.Tests.Phone;

public class PhonePageTests
{
    private static readonly string[] Pages =
        ["/bay", "/bay/bay-1", "/bay/bay-1/start", "/bay/bay-1/start?like=grey-estate", Thumb.Car, $"{Thumb.Car}/more", $"{Thumb.Car}/told", $"{Thumb.Car}/card"];

    [Theory]
    [InlineData("inspected:dust", "inspected", "found", "dust")]
    [InlineData("wetted", "wetted", "by", "Sam")]
    [InlineData("dried", "dried", "note", "blown dry")]
    [InlineData("flashed", "flashed", "surface", "bonnet")]
    [InlineData("applied", "applied", "layer", "2")]
    [InlineData("reworked:polished-off", "reworked", "how", "polished-off")]
    [InlineData("measured", "measured", "panelC", "3.6")]
    [InlineData("lamp-on", "lamp-on", "surface", "bonnet")]
    [InlineData("polished", "polished", "section", "2")]
    [InlineData("moved", "moved", "toBay", "bay-2")]
    public async Task MorePage_TellsEverythingElse(string pressed, string did, string key, string value)
    {
        await using ServedShop shop = await Thumb.OpenWithCarAsync();
        (string, string)[] chosen = [.. new[] { ("surface", "bonnet"), (key, value) }.DistinctBy(c => c.Item1).Where(c => c.Item1 is not ("found" or "how"))];
        using HttpResponseMessage answer = await shop.TapAsync($"{Thumb.Car}/more", pressed, chosen);
        answer.AssertSeesOther(Thumb.Car);
        JsonElement told = Assert.Single(await shop.TapsAsync());
        Assert.Equal((did, value), (told.Of("did"), told.Of(key)));
    }

    // A lamp over one section was credited to all of the surface: there was no field to say which.
    [Theory]
    [InlineData("lamp", "lamp-on", "2", "2")]
    [InlineData("lamp", "lamp-off", "all", "")]
    [InlineData("spot", "measured", "1", "1")]
    [InlineData("water", "wetted", "2", "2")]
    public async Task WhatIsOfOneSection_IsToldOfIt_AndOfAllOnlyWhereSomebodySaysSo(string group, string did, string section, string told)
    {
        await using ServedShop shop = await Thumb.OpenWithCarAsync();
        string page = await shop.TextAsync($"{Thumb.Car}/more");
        string choice = Regex.Match(page, $"<fieldset class=\"tell\" id=\"{group}\">.*?(<select name=\"section\".*?</select>)", RegexOptions.Singleline).Groups[1].Value;
        Assert.Equal(group != "water", Regex.IsMatch(choice, "^<select name=\"section\" required>\\s*<option value(=\"\")?>choose"));
        Assert.Contains($">{section}</option>", choice, StringComparison.Ordinal);
        using HttpResponseMessage answer = await shop.TapAsync($"{Thumb.Car}/more", did, ("surface", "bonnet"), ("section", section), ("panelC", did == "measured" ? "30" : ""));
        answer.AssertSeesOther(Thumb.Car);
        Assert.Equal(told, Assert.Single(await shop.TapsAsync()).Of("section"));
    }

    // Water at 18:40 is found at 07:30.
    [Fact]
    public async Task MorePage_TellsWhatWasADayAgo()
    {
        await using ServedShop shop = await Thumb.OpenWithCarAsync();
        int[] ago = [.. Regex.Matches(await shop.TextAsync($"{Thumb.Car}/more"), "<option value=\"(\\d+)\">[^<]*(now|ago)").Select(m => int.Parse(m.Groups[1].Value, System.Globalization.CultureInfo.InvariantCulture))];
        Assert.Equal(1440, ago.Max());
        Assert.Contains(ago, a => a is > 720 and < 960);
        using HttpResponseMessage answer = await shop.TapAsync($"{Thumb.Car}/more", "wetted", ("surface", "bonnet"), ("ago", "1440"));
        answer.AssertSeesOther(Thumb.Car);
        Assert.Equal("2026-05-03T08:01:00Z", Assert.Single(await shop.TapsAsync()).Of("at"));
    }

    [Fact]
    public async Task Car_ThatWasMoved_SaysWhereItIs_AndIsWorkedOnAllTheSame()
    {
        await using ServedShop shop = await Thumb.OpenWithCarAsync();
        using HttpResponseMessage moved = await shop.TapAsync($"{Thumb.Car}/more", "moved", ("toBay", "bay-2"));
        moved.AssertSeesOther(Thumb.Car);
        Assert.Contains("Not in bay-1: bay-2", await shop.WordsAsync(Thumb.Car), StringComparison.Ordinal);
        Assert.Contains("No car here", await shop.WordsAsync("/bay"), StringComparison.Ordinal);
        Assert.Contains("grey estate", await shop.WordsAsync("/bay/bay-2"), StringComparison.Ordinal);
    }

    [Fact]
    public async Task Card_SaysKeepDryUntilWithItsDay_AndLeadsToTheCar()
    {
        await using ServedShop shop = await Thumb.OpenWithCarAsync();
        Assert.Contains("nothing is coated yet", await shop.WordsAsync($"{Thumb.Car}/card"), StringComparison.Ordinal);
        foreach (string did in new[] { "panel-wiped", "applied", "levelled" })
        {
            await shop.TellAsync(did);
            await shop.PassAsync(2);
        }

        string words = await shop.WordsAsync($"{Thumb.Car}/card");
        Assert.Matches(@"Keep dry until (Mon|Tues)day [45] May, \d\d:\d\d at the least: coats are still to go on", words);
        Assert.Contains("Don't touch bonnet", words, StringComparison.Ordinal);
        Assert.Contains($"{shop.Address.GetLeftPart(UriPartial.Authority)}{Thumb.Car}", words, StringComparison.Ordinal);
        Assert.Contains("leads to this computer alone", words, StringComparison.Ordinal); // a loopback address is of no use on a phone
    }

    [Fact]
    public async Task Card_OfAWetCoat_PromisesNoTime()
    {
        await using ServedShop shop = await Thumb.OpenWithCarAsync();
        foreach (string did in new[] { "panel-wiped", "applied", "levelled" })
        {
            await shop.TellAsync(did);
            await shop.PassAsync(2);
        }

        using HttpResponseMessage wet = await shop.TapAsync($"{Thumb.Car}/more", "wetted");
        wet.AssertSeesOther(Thumb.Car);
        Assert.Contains("nobody can tell yet until when", await shop.WordsAsync($"{Thumb.Car}/card"), StringComparison.Ordinal);
    }

    // Nothing is left to do but to dry it and to look at it: that is no "wait", on no screen.
    [Fact]
    public async Task CarThatOnlyAPersonReleases_IsSaidToBeHeld_OnThePhoneTheWallAndTheCard()
    {
        await using ServedShop shop = await Thumb.OpenWithCarAsync("""{"job":"grey-estate","bay":"bay-1","surfaces":[{"surface":"bonnet","material":"steel","product":"paint"}]}""");
        await shop.TellAsync("panel-wiped");
        await shop.PassAsync(4);
        await shop.TellAsync("applied");
        await shop.PassAsync(2);
        await shop.TellAsync("levelled");
        await shop.PassAsync(20); // until it is looked at for the second time
        foreach (string did in new[] { "inspected:clear", "wetted", "dried" })
        {
            using HttpResponseMessage told = await shop.TapAsync($"{Thumb.Car}/more", did, ("surface", "bonnet"));
            told.AssertSeesOther(Thumb.Car);
            await shop.PassAsync(1);
        }

        foreach (string path in new[] { Thumb.Car, "/bay/bay-1", "/wall" })
        {
            string words = await shop.WordsAsync(path);
            Assert.True(words.Contains("Held: bonnet", StringComparison.Ordinal), words);
            Assert.DoesNotContain("Nothing to do", words, StringComparison.Ordinal);
            Assert.DoesNotContain("Leaves from", words, StringComparison.Ordinal);
        }

        Assert.Contains("held until somebody has looked at it", await shop.WordsAsync($"{Thumb.Car}/card"), StringComparison.Ordinal);
    }

    [Fact]
    public async Task EveryPage_HasNothingInline_LabelsEveryField_AndSpellsHostileNamesOut()
    {
        await using ServedShop shop = await Thumb.OpenWithCarAsync(Asked.Car.Replace("\"grey estate\"", "\"<img src=x onerror=alert(1)>\"", StringComparison.Ordinal));
        await shop.TellAsync("panel-wiped");
        foreach (string path in Pages)
        {
            string html = await shop.TextAsync(path);
            Assert.DoesNotMatch(@"\sstyle=|\son[a-z]+=""|<style|<script(?! type=""module"" src=""/assets/)|javascript:", html);
            Assert.DoesNotContain("<img", html, StringComparison.Ordinal);
            Assert.Single(Regex.Matches(html, "<h1"));
            string outside = Regex.Replace(html, "<label.*?</label>", "", RegexOptions.Singleline);
            Assert.DoesNotMatch("<select|<input(?! type=\"hidden\")", outside);
            string[] ids = [.. Regex.Matches(html, "\\sid=\"([^\"]*)\"").Select(m => m.Groups[1].Value)];
            Assert.Equal(ids.Length, ids.Distinct().Count());
        }
    }

    [Fact]
    public async Task Page_OfNoBayOrNoCar_IsNotThere()
    {
        await using ServedShop shop = await Thumb.OpenWithCarAsync();
        foreach (string path in new[] { "/bay/bay-9", "/bay/bay-9/start", "/bay/bay-9/jobs/grey-estate", "/bay/bay-1/jobs/nobody", "/bay/bay-1/jobs/nobody/card" })
        {
            using HttpResponseMessage answer = await shop.SendAsync(HttpMethod.Get, path);
            Assert.Equal(HttpStatusCode.NotFound, answer.StatusCode);
            Assert.Equal("text/html", answer.Content.Headers.ContentType?.MediaType);
        }
    }

    [Fact]
    public async Task StartForm_WithNothingTicked_SaysSo_AndKeepsWhatWasPutIn()
    {
        await using ServedShop shop = await Thumb.OpenWithCarAsync();
        (string, string)[] fields = [("car", "blue hatch"), .. WalkTests.FieldsOf(await shop.TextAsync("/bay/bay-1/start"))];
        using HttpResponseMessage nothing = await shop.SubmitAsync("/bay/bay-1/start", fields);
        Assert.Equal(HttpStatusCode.BadRequest, nothing.StatusCode);
        Assert.Contains("Surfaces: saw", await nothing.WordsAsync(), StringComparison.Ordinal);
        using HttpResponseMessage noProduct = await shop.SubmitAsync("/bay/bay-1/start", [("pick", "9"), .. fields]); // the shop has nothing for wheels
        string html = await noProduct.Content.ReadAsStringAsync(TestContext.Current.CancellationToken);
        Assert.Contains("wheels, Product: saw nothing", Forms.Words(html), StringComparison.Ordinal);
        Assert.Contains("name=\"pick\" value=\"9\" checked", html, StringComparison.Ordinal);
        Assert.Contains("value=\"blue hatch\"", html, StringComparison.Ordinal);
    }

    [Fact]
    public async Task StartForm_LikeAnotherCar_TakesItsSurfacesOver()
    {
        await using ServedShop shop = await Thumb.OpenWithCarAsync();
        string form = await shop.TextAsync("/bay/bay-2/start?like=grey-estate");
        int[] picked = [.. Regex.Matches(form, "name=\"pick\" value=\"(\\d+)\" checked").Select(m => int.Parse(m.Groups[1].Value, System.Globalization.CultureInfo.InvariantCulture))];
        Assert.Equal(2, picked.Length);
        using HttpResponseMessage started = await shop.SubmitAsync("/bay/bay-2/start", [("car", "blue hatch"), .. picked.Select(p => ("pick", $"{p}")), .. WalkTests.FieldsOf(form)]);
        started.AssertSeesOther("/bay/bay-2/jobs/blue-hatch");
        string words = await shop.WordsAsync("/bay/bay-2/jobs/blue-hatch");
        Assert.Contains("bonnet", words, StringComparison.Ordinal);
        Assert.Contains("wheels", words, StringComparison.Ordinal);
    }

    [Fact]
    public async Task StartForm_LikeACarOfSystems_ShowsTheProductOverIt_AndNamesWhatItCannotTell()
    {
        await using ServedShop shop = await Thumb.OpenWithCarAsync(
            """
            {"job":"grey-estate","bay":"bay-1","surfaces":[
             {"surface":"bonnet","material":"steel","system":[{"product":"paint"},{"product":"paint","layers":2}]},
             {"surface":"roof","material":"steel","system":[{"product":"paint"},{"product":"paint"},{"product":"paint"}]}]}
            """);
        string form = await shop.TextAsync("/bay/bay-2/start?like=grey-estate");
        Assert.Matches("<select name=\"then\">[^£]*<option value=\"paint\" selected", form);
        Assert.Contains("name=\"thenLayers\" type=\"number\" min=\"1\" max=\"9\" value=\"2\"", form, StringComparison.Ordinal);
        Assert.Contains("Not taken over, as this form tells two products of a surface: roof", Forms.Words(form), StringComparison.Ordinal);

        // Promised for no time, it is refused: what it offered and what it left out is there again.
        (string, string)[] fields = [.. WalkTests.FieldsOf(form).Select(f => f.Name == "then" ? (f.Name, "") : f)];
        using HttpResponseMessage refused = await shop.SubmitAsync("/bay/bay-2/start", [("car", "blue hatch"), ("promised", "yesterday"), ("pick", "0"), .. fields]);
        Assert.Equal(HttpStatusCode.BadRequest, refused.StatusCode);
        string again = await refused.Content.ReadAsStringAsync(TestContext.Current.CancellationToken);
        Assert.Contains("<select name=\"then\">", again, StringComparison.Ordinal);
        Assert.Contains("tells two products of a surface: roof", Forms.Words(again), StringComparison.Ordinal);
    }

    [Fact]
    public async Task Scripts_AreThere_UnderOneVersion_AndNameEachOther()
    {
        await using ServedShop shop = await Thumb.OpenWithCarAsync();
        string script = Regex.Match(await shop.TextAsync(Thumb.Car), "src=\"(/assets/[0-9a-f]+/)phone.js\"").Groups[1].Value;
        var left = new Queue<string>(["phone.js"]);
        var seen = new HashSet<string>();
        while (left.TryDequeue(out string? name))
        {
            if (seen.Add(name))
            {
                string text = await shop.TextAsync($"{script}{name}");
                foreach (Match import in Regex.Matches(text, "from \"\\./([a-z]+\\.js)\""))
                {
                    left.Enqueue(import.Groups[1].Value);
                }
            }
        }

        Assert.Equal(["again.js", "away.js", "board.js", "call.js", "clock.js", "newer.js", "phone.js", "queue.js", "tongue.js", "wipes.js"], seen.Order());
    }
}
