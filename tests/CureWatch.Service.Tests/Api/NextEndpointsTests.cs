using System.Net;
using System.Text.Json;
using CureWatch.Service.Tests.Commands;

namespace CureWatch.Service.Tests.Api;

public class NextEndpointsTests
{
    private const string Car =
        """
        {"job":"grey-estate","bay":"bay-1","surfaces":[
          {"surface":"bonnet","material":"steel","system":[{"product":"paint"},{"product":"quick"}],"sections":3},
          {"surface":"wheels","material":"casting","place":"off-car","product":"quick"}]}
        """;

    private const string Next = "/api/v1/jobs/grey-estate/next";

    [Fact]
    public async Task Next_SaysWhatIsToBeDone_AndAPressTellsIt()
    {
        await using ServedShop shop = await WithCarAsync();
        JsonElement said = await shop.GetAsync(Next);
        JsonElement next = said.GetProperty("next");
        Assert.Equal(("apply", "bonnet", 1, 1, "paint"), Seen(next));
        Assert.Equal("bonnet, layer 1, section 1: apply paint when it is ready. Not yet: Bonnet was not wiped down.", Text(next, "text"));
        Assert.Equal(["Bonnet was not wiped down."], next.GetProperty("against").EnumerateArray().Select(a => a.GetString()));
        Assert.Contains(next.GetProperty("cautions").EnumerateArray(), c => c.GetString() == "Mind the vapour.");

        JsonElement pressed = await shop.PostAsync(Next, """{"id":"p1","by":"Sam","startedAt":"2026-05-04T07:59:30Z"}""", HttpStatusCode.Created);
        JsonElement tap = pressed.GetProperty("tap");
        Assert.Equal(("p1", "applied", "Sam", 1), (Text(tap, "id"), Text(tap, "did"), Text(tap, "by"), tap.GetProperty("section").GetInt32()));
        Assert.Equal(("apply", "bonnet", 1, 2, "paint"), Seen(pressed.GetProperty("next")));
        Assert.Equal(("level", "bonnet", 1, 1, "paint"), Seen(pressed.GetProperty("then")));
    }

    [Fact]
    public async Task Press_WithTheSameId_TellsOneTap()
    {
        await using ServedShop shop = await WithCarAsync();
        await shop.PostAsync(Next, """{"id":"p1"}""", HttpStatusCode.Created);
        JsonElement again = await shop.PostAsync(Next, """{"id":"p1"}""", HttpStatusCode.OK);
        Assert.Equal("repeated", Text(again, "answer"));
        Assert.Equal(1, (await shop.GetAsync("/api/v1/jobs/grey-estate/taps")).GetProperty("taps").GetArrayLength());
    }

    [Fact]
    public async Task Presses_WalkTheCar_AndItReplaysAsItWasServed()
    {
        await using ServedShop shop = await WithCarAsync();
        var walked = new List<string>();
        for (int press = 0; press < 30 && (await shop.GetAsync(Next)).GetProperty("next") is { ValueKind: JsonValueKind.Object } next; press++)
        {
            if (next.GetProperty("from").ValueKind == JsonValueKind.String && next.GetProperty("from").GetDateTimeOffset() is var from)
            {
                while (from > shop.Clock.GetUtcNow())
                {
                    await shop.PassAsync(1);
                }
            }

            (string act, string surface, int layer, int? section, _) = Seen(next);
            string body = $$"""{"id":"p{{press}}","act":"{{act}}"}""";
            await shop.PostAsync(Next, body, HttpStatusCode.Created);
            walked.Add($"{act} {surface} {layer}{(section is null ? "" : $".{section}")}");
            await shop.PassAsync(1);
        }

        Assert.Equal(
            [
                "apply bonnet 1.1", "apply bonnet 1.2", "apply bonnet 1.3", "level bonnet 1.1", "level bonnet 1.2", "level bonnet 1.3",
                "apply wheels 1.1", "level wheels 1.1", "look bonnet 1", "look wheels 1",
                "apply bonnet 2.1", "level bonnet 2.1", "apply bonnet 2.2", "level bonnet 2.2", "apply bonnet 2.3", "level bonnet 2.3", "look bonnet 2",
            ],
            walked);
        JsonElement holds = (await shop.GetAsync("/api/v1/jobs/grey-estate/handover")).GetProperty("holds");
        Assert.All(holds.EnumerateArray(), h => Assert.Contains(Text(h, "kind"), new[] { "keep-dry", "level-missed" }));

        JsonElement served = await shop.GetAsync("/api/v1/jobs/grey-estate");
        await shop.StopAsync();
        Invocation replayed = Invocation.Of("replay", "--data", shop.DataPath, "--job", "grey-estate", "--until", Text(served, "until")!, "--json");
        JsonElement again = JsonElement.Parse(replayed.Output);
        Assert.All(
            new[] { "surfaces", "warnings", "handover", "next", "then", "readings", "taps" },
            key => Assert.Equal(served.GetProperty(key).GetRawText(), again.GetProperty(key).GetRawText()));
    }

    [Fact]
    public async Task Press_WhenWhatWasNextHasBecomeSomethingElse_AsksWhichIsMeant()
    {
        await using ServedShop shop = await WithCarAsync();
        await shop.PostAsync(Next, """{"id":"p1","surface":"bonnet"}""", HttpStatusCode.Created);
        await shop.PostAsync(Next, """{"id":"p2"}""", HttpStatusCode.Created);
        await shop.PassAsync(20);
        Assert.Equal("re-wet", Text((await shop.GetAsync(Next)).GetProperty("next"), "act"));
        JsonElement refused = await shop.PostAsync(Next, """{"id":"p3"}""", HttpStatusCode.Conflict);
        Assert.Contains("Re-wet and level now", Text(refused, "detail"), StringComparison.Ordinal);

        Assert.Equal("levelled", Text((await shop.PostAsync(Next, """{"id":"p4","act":"level"}""", HttpStatusCode.Created)).GetProperty("tap"), "did"));
        Assert.Equal("re-wet", Text((await shop.PostAsync(Next, """{"id":"p5","act":"re-wet"}""", HttpStatusCode.Created)).GetProperty("tap"), "how"));
        JsonElement holds = (await shop.GetAsync("/api/v1/jobs/grey-estate/handover")).GetProperty("holds");
        Assert.Contains(holds.EnumerateArray(), h => Text(h, "kind") == "level-missed" && h.GetProperty("section").GetInt32() == 1);
    }

    [Theory]
    [InlineData("""{"id":"p","act":"level"}""", "next is bonnet, layer 1, section 1: apply paint")]
    [InlineData("""{"id":"p","section":2}""", "next is bonnet, layer 1, section 1")]
    public async Task Press_OfWhatIsNotToBeDone_IsRefused(string body, string why)
    {
        await using ServedShop shop = await WithCarAsync();
        Assert.Contains(why, Text(await shop.PostAsync(Next, body, HttpStatusCode.Conflict), "detail"), StringComparison.Ordinal);
    }

    [Fact]
    public async Task Press_BeforeALookIsDue_IsRefused_AndSaysWhenItIs()
    {
        await using ServedShop shop = await WithCarAsync();
        for (int i = 0; i < 2; i++)
        {
            await shop.PostAsync(Next, $$"""{"id":"p{{i}}","surface":"wheels"}""", HttpStatusCode.Created);
            await shop.PassAsync(3);
        }

        JsonElement refused = await shop.PostAsync(Next, """{"id":"p9","surface":"wheels"}""", HttpStatusCode.Conflict);
        Assert.Contains("second look under light from", Text(refused, "detail"), StringComparison.Ordinal);
    }

    [Fact]
    public async Task Press_WithFaults_IsRefusedWithEachOfThem()
    {
        await using ServedShop shop = await WithCarAsync();
        await shop.AssertFaultyAsync(Next, """{"who":"Sam","at":"2026-05-04T09:00:00Z","surface":"roof","act":"spray","layer":0}""", "/who", "/id", "/surface", "/act", "/layer");
        await shop.AssertFaultyAsync(Next, """{"id":"p","at":"2026-05-04T09:00:00Z"}""", "/at");
        await shop.AssertFaultyAsync(Next, "[]", "");
        await shop.PostAsync("/api/v1/jobs/nobody/next", "{}", HttpStatusCode.NotFound);
        await shop.GetAsync("/api/v1/jobs/nobody/next", HttpStatusCode.NotFound);
    }

    [Fact]
    public async Task JobAndWindows_SayWhatIsNext()
    {
        await using ServedShop shop = await WithCarAsync();
        string next = (await shop.GetAsync(Next)).GetProperty("next").GetRawText();
        Assert.Equal(next, (await shop.GetAsync("/api/v1/jobs/grey-estate")).GetProperty("next").GetRawText());
        Assert.Equal(next, (await shop.GetAsync("/api/v1/jobs/grey-estate/windows")).GetProperty("next").GetRawText());
    }

    private static string? Text(JsonElement item, string name) => item.GetProperty(name).GetString();

    private static (string Act, string Surface, int Layer, int? Section, string Product) Seen(JsonElement act) => (
        Text(act, "act")!, Text(act, "surface")!, act.GetProperty("layer").GetInt32(),
        act.GetProperty("section") is { ValueKind: JsonValueKind.Number } section ? section.GetInt32() : null, Text(act, "product")!);

    private static async Task<ServedShop> WithCarAsync()
    {
        ServedShop shop = await ServedShop.OpenAsync();
        await shop.PassAsync(1);
        await shop.PostAsync("/api/v1/jobs", Car, HttpStatusCode.Created);
        return shop;
    }
}
