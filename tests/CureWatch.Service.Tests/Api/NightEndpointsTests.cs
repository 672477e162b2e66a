using System.Net;
using System.Text.Json;

namespace CureWatch.Service.Tests.Api;

/// <summary>The lock-up summary and the morning brief over HTTP, and on the board.</summary>
public class NightEndpointsTests
{
    private const string Job = """{"job":"grey-estate","bay":"bay-1","car":"grey estate","surfaces":[{"surface":"bonnet","material":"steel","product":"paint"}]}""";

    [Fact]
    public async Task Tonight_TellsOfWhatHasToStayDry()
    {
        await using ServedShop shop = await CoatedAsync();
        JsonElement all = await shop.GetAsync("/api/v1/tonight"), bay = await shop.GetAsync("/api/v1/bays/bay-1/tonight");
        Assert.StartsWith("Tonight: grey estate safe", all.GetProperty("text").GetString(), StringComparison.Ordinal);
        Assert.Equal(["safe", "nothing-open"], all.GetProperty("bays").EnumerateArray().Select(b => b.GetProperty("verdict").GetString()));
        Assert.Equal(("bay-1", "safe", "usual-night"), (Text(bay, "bay"), Text(bay, "verdict"), Text(bay, "basis")));
        await shop.GetAsync("/api/v1/bays/bay-9/tonight", HttpStatusCode.NotFound);
        Assert.Contains("grey estate safe", await shop.Client.GetStringAsync("/", TestContext.Current.CancellationToken), StringComparison.Ordinal);
    }

    [Fact]
    public async Task Morning_TellsWhatToLookAtFirst()
    {
        await using ServedShop shop = await CoatedAsync();
        JsonElement all = await shop.GetAsync("/api/v1/morning"), bay = await shop.GetAsync("/api/v1/bays/bay-1/morning");
        Assert.Equal(2, all.GetProperty("bays").GetArrayLength());
        Assert.Equal("grey-estate", bay.GetProperty("lookFirst")[0].GetProperty("job").GetString());
        await shop.GetAsync("/api/v1/bays/bay-9/morning", HttpStatusCode.NotFound);
    }

    private static string? Text(JsonElement document, string key) => document.GetProperty(key).GetString();

    private static async Task<ServedShop> CoatedAsync()
    {
        ServedShop shop = await ServedShop.OpenAsync();
        await shop.PassAsync(1);
        await shop.PostAsync("/api/v1/jobs", Job, HttpStatusCode.Created);
        await shop.PostAsync("/api/v1/jobs/grey-estate/taps", """{"id":"on","at":"2026-05-04T08:01:00Z","did":"applied"}""", HttpStatusCode.Created);
        await shop.PassAsync(2);
        return shop;
    }
}
