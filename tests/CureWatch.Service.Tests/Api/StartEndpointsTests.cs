using System.Net;
using System.Text.Json;
using CureWatch.Service.Settings;
using CureWatch.Service.Tests.Commands;

namespace CureWatch.Service.Tests.Api;

/// <summary>Can I start? Over HTTP, on the page, and from the data folder.</summary>
public class StartEndpointsTests
{
    private const string Start = "/api/v1/jobs/grey-estate/start";

    [Fact]
    public async Task Answer_IsTheSame_FromTheDataFolder_AndTheExitSaysIt()
    {
        await using ServedShop shop = await OpenAsync();
        foreach ((string did, string verdict, int exit) in new[] { ("measured", "no", 1), ("inspected", "no", 1), ("panel-wiped", "yes", 0) })
        {
            await TapAsync(shop, did);
            await shop.PassAsync(4);
            JsonElement served = await shop.GetAsync(Start);
            Assert.Equal(verdict, served.GetProperty("verdict").GetString());

            Invocation told = Invocation.Of("start", "--data", shop.Data, "--job", "grey-estate", "--at", served.GetProperty("at").GetString()!, "--json");
            Assert.Equal((exit, ""), (told.ExitCode, told.Error));
            Assert.True(JsonElement.DeepEquals(served, JsonElement.Parse(told.Output)), told.Output);

            Invocation words = Invocation.Of("start", "--data", shop.Data);
            Assert.Equal(exit, words.ExitCode);
            Assert.StartsWith(verdict == "yes" ? "Start now:" : "Not yet:", words.Output, StringComparison.Ordinal);
            Assert.Contains("caution: solvent vapour", words.Output, StringComparison.Ordinal);
        }
    }

    [Fact]
    public async Task Surface_ThatIsNamed_IsTheOnlyOne()
    {
        await using ServedShop shop = await OpenAsync();
        JsonElement all = await shop.GetAsync(Start), one = await shop.GetAsync($"{Start}?surface=wheels");
        Assert.Equal(["bonnet", "wheels"], all.GetProperty("surfaces").EnumerateArray().Select(s => s.GetProperty("surface").GetString()));
        JsonElement wheels = Assert.Single(one.GetProperty("surfaces").EnumerateArray());
        Assert.Equal("wheels", wheels.GetProperty("surface").GetString());
        Assert.Contains("roof", (await shop.GetAsync($"{Start}?surface=roof", HttpStatusCode.BadRequest)).ToString(), StringComparison.Ordinal);
        await shop.GetAsync("/api/v1/jobs/nobody/start", HttpStatusCode.NotFound);
    }

    [Fact]
    public async Task Bay_AnswersForAProduct_AndNamesEveryFault()
    {
        await using ServedShop shop = await OpenAsync();
        JsonElement answer = await shop.GetAsync("/api/v1/bays/bay-2/start?product=paint&material=glass");
        Assert.Equal(("yes", "bay-2"), (answer.GetProperty("verdict").GetString(), answer.GetProperty("bay").GetString()));
        JsonElement cabin = await shop.GetAsync("/api/v1/bays/bay-2/start?product=paint&material=leather&place=cabin");
        Assert.Equal("no", cabin.GetProperty("verdict").GetString());

        JsonElement refused = await shop.GetAsync("/api/v1/bays/bay-1/start?product=wax&revision=0&place=roof&colour=red", HttpStatusCode.BadRequest);
        Assert.Equal(
            ["colour", "material", "place", "product", "revision"],
            refused.GetProperty("faults").EnumerateArray().Select(f => f.GetProperty("place").GetString()).Order());
        await shop.GetAsync("/api/v1/bays/bay-1/start?product=paint&material=steel&revision=9", HttpStatusCode.BadRequest);
        await shop.GetAsync("/api/v1/bays/bay-9/start?product=paint&material=steel", HttpStatusCode.NotFound);
    }

    [Fact]
    public async Task Page_SaysIt_WithEveryReason_UntilNothingIsLeft()
    {
        await using ServedShop shop = await OpenAsync();
        string page = await shop.TextAsync("/jobs/grey-estate");
        Assert.Contains("Can I start?", page, StringComparison.Ordinal);
        Assert.Contains("How cold wheels came in is not known", page, StringComparison.Ordinal);
        await TapAsync(shop, "applied");
        Assert.DoesNotContain("Can I start?", await shop.TextAsync("/jobs/grey-estate"), StringComparison.Ordinal);
    }

    [Theory]
    [InlineData("--job", "nobody", "job")]
    [InlineData("--surface", "roof", "surface")]
    [InlineData("--at", "noon", "--at")]
    public async Task Command_ThatCannotAnswer_ExitsWith2_AndOneLine(string option, string value, string place)
    {
        await using ServedShop shop = await OpenAsync();
        Invocation told = Invocation.Of("start", "--data", shop.Data, option, value);
        Assert.Equal((2, ""), (told.ExitCode, told.Output));
        Assert.Contains(place, Assert.Single(told.Error.TrimEnd().Split('\n')), StringComparison.Ordinal);
    }

    private static async Task<ServedShop> OpenAsync()
    {
        ServedShop shop = await ServedShop.OpenAsync();
        await shop.PassAsync(2);
        await shop.PostAsync("/api/v1/jobs", Asked.Car, HttpStatusCode.Created);
        return shop;
    }

    private static Task<JsonElement> TapAsync(ServedShop shop, string did) => shop.PostAsync(
        "/api/v1/jobs/grey-estate/taps",
        $$"""{"at":"{{UtcText.Of(shop.Clock.GetUtcNow())}}","did":"{{did}}"{{(did == "inspected" ? ",\"found\":\"clear\",\"layer\":2" : did == "measured" ? ",\"panelC\":20" : "")}}}""",
        HttpStatusCode.Created);
}
