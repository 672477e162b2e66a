using System.Net;
using System.Text.Json;
using CureWatch.Service.Tests.Board;
using CureWatch.Service.Tests.Commands;

namespace CureWatch.Service.Tests.Api;

/// <summary>Monday, 9 o'clock in the shop: a coat on the bonnet in bay-1, and what is planned beside it.</summary>
public class PlanEndpointsTests
{
    private const string Sanding = """{"bay":"bay-1","work":"sanding","from":"2026-05-04T09:00:00Z","to":"2026-05-04T09:30:00Z","by":"Robin","note":"rear bumper"}""";

    [Fact]
    public async Task Plan_SaysWhenABayFrees_AndWhoHarmsWhom_InHttp_OnThePage_AndFromTheDataFolder()
    {
        await using ServedShop shop = await CoatedAsync();
        JsonElement work = await shop.PostAsync("/api/v1/plan/work", Sanding, HttpStatusCode.Created);
        Assert.Equal("sanding-1", Text(work, "id"));
        JsonElement plan = await shop.GetAsync("/api/v1/plan");
        Assert.False(plan.GetProperty("fits").GetBoolean());
        JsonElement conflict = Assert.Single(plan.GetProperty("conflicts").EnumerateArray());
        Assert.Equal(("sanding-1", "dust", "grey-estate"), (Text(conflict, "id"), Text(conflict, "harm"), Text(conflict, "harmedJob")));
        Assert.StartsWith("Sanding in bay-1 10:00 to 10:30 harms bonnet, wheels of grey-estate in bay-1", Text(conflict, "text"), StringComparison.Ordinal);
        JsonElement bay = plan.GetProperty("bays")[0];
        Assert.Equal("grey-estate", Text(bay, "takenBy"));
        Assert.Equal("Robin", Text(bay.GetProperty("work")[0], "by"));
        Assert.Contains(plan.GetProperty("cautions").EnumerateArray(), c => c.GetString()!.Contains("solvent vapour", StringComparison.Ordinal));
        JsonElement alone = await shop.GetAsync("/api/v1/bays/bay-1/plan");
        Assert.Equal(bay.GetProperty("cars").GetRawText(), alone.GetProperty("cars").GetRawText());
        Assert.Contains("Sanding in bay-1 10:00 to 10:30 harms bonnet, wheels", await shop.WordsAsync("/plan"), StringComparison.Ordinal);

        Invocation run = Invocation.Of($"plan --data {shop.Data} --json");
        Assert.Equal((1, ""), (run.ExitCode, run.Error));
        Assert.Equal(conflict.GetRawText(), JsonElement.Parse(run.Output).GetProperty("conflicts")[0].GetRawText());
        Assert.Contains("conflict: Sanding in bay-1", Invocation.Of($"plan --data {shop.Data}").Output, StringComparison.Ordinal);
        await shop.GetAsync("/api/v1/bays/bay-9/plan", HttpStatusCode.NotFound);
    }

    [Fact]
    public async Task Work_IsChangedAndDropped_AndARetryChangesNothing()
    {
        await using ServedShop shop = await CoatedAsync();
        string named = Sanding.Replace("{\"bay\"", "{\"id\":\"bumper\",\"bay\"", StringComparison.Ordinal);
        await shop.PostAsync("/api/v1/plan/work", named, HttpStatusCode.Created);
        await shop.PostAsync("/api/v1/plan/work", named, HttpStatusCode.OK);
        string later = Sanding.Replace("05-04", "05-06", StringComparison.Ordinal);
        await shop.AssertFaultyAsync("/api/v1/plan/work", later.Replace("{\"bay\"", "{\"id\":\"bumper\",\"bay\"", StringComparison.Ordinal), "/id");
        using HttpResponseMessage moved = await shop.SendAsync(HttpMethod.Put, "/api/v1/plan/work/bumper", Asked.Json(later));
        Assert.Equal("2026-05-06T09:00:00Z", Text(await moved.DocumentAsync(HttpStatusCode.OK), "from"));
        Assert.Empty((await shop.GetAsync("/api/v1/plan")).GetProperty("conflicts").EnumerateArray());
        using HttpResponseMessage dropped = await shop.SendAsync(HttpMethod.Delete, "/api/v1/plan/work/bumper", Asked.Json("""{"by":"Robin"}"""));
        Assert.Equal(HttpStatusCode.NoContent, dropped.StatusCode);
        await shop.GetAsync("/api/v1/plan/work/bumper", HttpStatusCode.NotFound);
        using HttpResponseMessage again = await shop.SendAsync(HttpMethod.Delete, "/api/v1/plan/work/bumper", Asked.Json("{}"));
        Assert.Equal(HttpStatusCode.NotFound, again.StatusCode);
    }

    [Fact]
    public async Task Work_WithFaults_IsRefusedWithEachOfThem()
    {
        await using ServedShop shop = await CoatedAsync();
        await shop.AssertFaultyAsync(
            "/api/v1/plan/work", """{"bay":"bay-9","work":"car-comes-in","from":"2026-05-04T10:00:00Z","to":"2026-05-04T09:30:00Z","colour":1}""", "/colour", "/bay", "/work", "/to");
        await shop.AssertFaultyAsync("/api/v1/plan/work", "{}", "/bay", "/work", "/from", "/to");
        using HttpResponseMessage foreign = await shop.SendAsync(HttpMethod.Delete, "/api/v1/plan/work/x", null, ("Origin", "http://elsewhere.example"));
        Assert.Equal(HttpStatusCode.Forbidden, foreign.StatusCode);
    }

    [Fact]
    public async Task CarThatIsToCome_IsPlanned_AndCanBePlannedOtherwise()
    {
        await using ServedShop shop = await CoatedAsync();
        string car = Asked.Car.Replace("grey-estate", "blue-hatch", StringComparison.Ordinal).Replace("bay-1", "bay-2", StringComparison.Ordinal)
            .Replace("\"car\":", "\"arrivesAt\":\"2026-05-04T12:00:00Z\",\"arrivesAtC\":18.5,\"car\":", StringComparison.Ordinal);
        await shop.PostAsync("/api/v1/jobs", car, HttpStatusCode.Created);
        JsonElement next = (await shop.GetAsync("/api/v1/plan")).GetProperty("bays")[1].GetProperty("cars")[0];
        Assert.Equal(("blue-hatch", false, 18.5), (Text(next, "job"), next.GetProperty("here").GetBoolean(), next.GetProperty("arrivesAtC").GetDouble()));
        Assert.Equal("2026-05-04T12:00:00Z", Text(next, "askedAt"));
        Assert.Contains((await shop.GetAsync("/api/v1/jobs/blue-hatch/start")).GetProperty("surfaces")[0].GetProperty("reasons").EnumerateArray(), r => Text(r, "kind") == "not-here");
        using HttpResponseMessage moved = await shop.SendAsync(
            HttpMethod.Put, "/api/v1/jobs/blue-hatch/visit", Asked.Json("""{"arrivesAt":"2026-05-05T08:00:00Z","plannedAt":"2026-05-05T09:00:00Z","by":"Sam"}"""));
        await moved.DocumentAsync(HttpStatusCode.OK);
        next = (await shop.GetAsync("/api/v1/plan")).GetProperty("bays")[1].GetProperty("cars")[0];
        Assert.Equal(("2026-05-05T08:00:00Z", "2026-05-05T09:00:00Z"), (Text(next, "arrivesAt"), Text(next, "askedAt")));
        using HttpResponseMessage early = await shop.SendAsync(
            HttpMethod.Put, "/api/v1/jobs/blue-hatch/visit", Asked.Json("""{"arrivesAt":"2026-05-05T08:00:00Z","plannedAt":"2026-05-05T07:00:00Z"}"""));
        Assert.Equal(HttpStatusCode.BadRequest, early.StatusCode);
    }

    // A car that did not come could only be handed over, despite whatever was said to hold it.
    [Fact]
    public async Task CarThatDoesNotCome_IsCancelled_AndOneThatIsHereIsNot()
    {
        await using ServedShop shop = await CoatedAsync();
        string car = Asked.Car.Replace("\"car\":", "\"arrivesAt\":\"2026-05-04T12:00:00Z\",\"car\":", StringComparison.Ordinal).Replace("bay-1", "bay-2", StringComparison.Ordinal);
        await shop.PostAsync("/api/v1/jobs", car.Replace("grey-estate", "blue-hatch", StringComparison.Ordinal), HttpStatusCode.Created);
        await shop.PostAsync("/api/v1/jobs", car.Replace("grey-estate", "red-coupe", StringComparison.Ordinal), HttpStatusCode.Created);
        using HttpResponseMessage cancelled = await shop.SendAsync(HttpMethod.Delete, "/api/v1/jobs/blue-hatch/visit", Asked.Json("""{"by":"Robin","note":"sold"}"""));
        Assert.Equal(HttpStatusCode.NoContent, cancelled.StatusCode);
        using HttpResponseMessage told = await shop.SubmitAsync("/plan/visit/red-coupe/cancel", ("by", "Robin"));
        told.AssertSeesOther("/plan");
        Assert.Empty((await shop.GetAsync("/api/v1/plan")).GetProperty("bays")[1].GetProperty("cars").EnumerateArray());
        using HttpResponseMessage again = await shop.SendAsync(HttpMethod.Delete, "/api/v1/jobs/blue-hatch/visit", Asked.Json("{}"));
        Assert.Equal(HttpStatusCode.NotFound, again.StatusCode);
        using HttpResponseMessage here = await shop.SendAsync(HttpMethod.Delete, "/api/v1/jobs/grey-estate/visit", Asked.Json("{}"));
        Assert.Equal(HttpStatusCode.Conflict, here.StatusCode);
    }

    [Fact]
    public async Task Passes_AreOfOnePersonOrTwo()
    {
        await using ServedShop shop = await CoatedAsync();
        JsonElement one = await shop.GetAsync("/api/v1/jobs/grey-estate/passes"), two = await shop.GetAsync("/api/v1/jobs/grey-estate/passes?people=2");
        Assert.Equal((1, 2), (one.GetProperty("people").GetInt32(), two.GetProperty("people").GetInt32()));
        Assert.StartsWith("One person: ", Text(one, "text"), StringComparison.Ordinal);
        Assert.StartsWith("Two people", Text(two, "text"), StringComparison.Ordinal);
        await shop.AssertCannotBeAskedAsync("/api/v1/jobs/grey-estate/passes?people=3", "people");
    }

    [Fact]
    public async Task Page_PlansWork_ChangesIt_AndDropsIt()
    {
        await using ServedShop shop = await CoatedAsync();
        (string, string)[] asked = [("bay", "bay-1"), ("work", "washing"), ("from", "2026-05-04T11:00"), ("to", "2026-05-04T11:30"), ("by", "Robin"), ("note", "")];
        using HttpResponseMessage planned = await shop.SubmitAsync("/plan/work", asked);
        planned.AssertSeesOther("/plan");
        Assert.Contains("washing 11:00 to 11:30, Robin", await shop.WordsAsync("/plan"), StringComparison.Ordinal);
        using HttpResponseMessage moved = await shop.SubmitAsync("/plan/work/washing-1", [.. asked[..2], ("from", "2026-05-06T11:00"), ("to", "2026-05-06T11:30"), ("by", ""), ("note", "")]);
        moved.AssertSeesOther("/plan");
        Assert.Contains("washing Wed 11:00 to 11:30", await shop.WordsAsync("/plan"), StringComparison.Ordinal);
        using HttpResponseMessage faulty = await shop.SubmitAsync("/plan/work", [.. asked[..3], ("to", "2026-05-04T10:30"), ("by", "Robin"), ("note", "two \"vans\"")]);
        Assert.Equal(HttpStatusCode.BadRequest, faulty.StatusCode);
        string kept = await faulty.Content.ReadAsStringAsync(TestContext.Current.CancellationToken);
        Assert.All(["value=\"2026-05-04T10:30\"", "value=\"Robin\"", "value=\"two &quot;vans&quot;\""], field => Assert.Contains(field, kept, StringComparison.Ordinal));
        using HttpResponseMessage dropped = await shop.SubmitAsync("/plan/work/washing-1/drop");
        dropped.AssertSeesOther("/plan");
        Assert.DoesNotContain("washing Wed", await shop.WordsAsync("/plan"), StringComparison.Ordinal);
    }

    private static async Task<ServedShop> CoatedAsync()
    {
        ServedShop shop = await ServedShop.OpenAsync();
        await shop.PassAsync(10, panelC: 20);
        await shop.PostAsync("/api/v1/jobs", Asked.Car, HttpStatusCode.Created);
        await shop.PostAsync("/api/v1/jobs/grey-estate/taps", """{"at":"2026-05-04T08:10:00Z","did":"measured","panelC":20}""", HttpStatusCode.Created);
        await shop.PostAsync(
            "/api/v1/jobs/grey-estate/taps", """{"at":"2026-05-04T08:10:00Z","surface":"bonnet","section":1,"did":"applied"}""", HttpStatusCode.Created);
        await shop.PassAsync(2, panelC: 20);
        return shop;
    }

    private static string? Text(JsonElement of, string name) => of.GetProperty(name).GetString();
}
