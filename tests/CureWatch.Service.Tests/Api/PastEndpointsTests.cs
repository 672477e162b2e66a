using System.Net;
using System.Text.Json;
using System.Text.Json.Nodes;
using CureWatch.Service.Journal;
using CureWatch.Service.Pump;
using CureWatch.Service.Tests.Mqtt;
using Microsoft.Extensions.DependencyInjection;

namespace CureWatch.Service.Tests.Api;

public class PastEndpointsTests
{
    private const string Past = "/api/v1/warnings/past", Handovers = "/api/v1/handovers";

    [Fact]
    public async Task Warning_ThatIsOver_IsAmongThePastOnes()
    {
        await using ServedShop shop = await WithASilenceAsync();
        Assert.Equal(0, (await shop.GetAsync("/api/v1/warnings")).GetProperty("warnings").GetArrayLength());
        JsonElement past = await shop.GetAsync(Past);
        Assert.Equal([3, 2, 1, 0], Numbers(past));
        Assert.NotEqual(JsonValueKind.Null, past.GetProperty("warnings")[0].GetProperty("clearedAt").ValueKind);
        Assert.True(past.GetProperty("through").GetProperty("complete").GetBoolean());
        Assert.Equal(shop.Services.GetRequiredService<Latest>().Register.Sequence, past.GetProperty("through").GetProperty("entry").GetInt64());
        Assert.Equal("2026-05-04T08:31:00Z", past.GetProperty("through").GetProperty("at").GetString());
    }

    [Fact]
    public async Task Warnings_PageByPage_AreAll()
    {
        await using ServedShop shop = await WithASilenceAsync();
        JsonElement first = await shop.GetAsync($"{Past}?most=3");
        Assert.Equal([3, 2, 1], Numbers(first));
        JsonElement second = await shop.GetAsync($"{Past}?most=3&before={first.GetProperty("next").GetInt32()}");
        Assert.Equal([0], Numbers(second));
        Assert.Equal(JsonValueKind.Null, second.GetProperty("next").ValueKind);
        Assert.Equal(JsonValueKind.Null, (await shop.GetAsync($"{Past}?most=4")).GetProperty("next").ValueKind);
    }

    [Theory]
    [InlineData("?from=2026-05-04T08:00:00Z&to=2026-05-04T08:03:59Z", 0)]
    [InlineData("?to=2026-05-04T09:04:00%2B01:00", 4)]
    [InlineData("?from=2026-05-04T08:10:00Z", 4)]
    [InlineData("?from=2026-05-04T08:40:00Z&to=2100-01-01T00:00:00Z", 0)]
    public async Task Warnings_OfAStretch_AreThoseThatStoodInIt(string stretch, int count)
    {
        await using ServedShop shop = await WithASilenceAsync();
        Assert.Equal(count, Numbers(await shop.GetAsync(Past + stretch)).Count());
    }

    [Fact]
    public async Task Question_WithFaults_IsRefusedWithEachOfThem()
    {
        await using ServedShop shop = await ServedShop.OpenAsync();
        await shop.AssertCannotBeAskedAsync($"{Past}?form=2026-05-04T08:00:00Z&to=today&before=-1&most=501", "form", "to", "before", "most");
        await shop.AssertCannotBeAskedAsync($"{Past}?from=2026-05-04T08:00:00Z&from=2026-05-04T09:00:00Z", "from");
        await shop.AssertCannotBeAskedAsync($"{Past}?from=2026-05-04T08:00:00.001Z&to=2026-05-04T08:00:00Z", "from");
        await shop.AssertCannotBeAskedAsync($"{Handovers}?before=yesterday&most=0&from=x", "from", "before", "most");
        JsonElement problem = await shop.GetAsync($"{Past}?from=2026-05-04T08:00:00+01:00", HttpStatusCode.BadRequest);
        Assert.Contains("write + as %2B", problem.GetProperty("faults")[0].GetProperty("allowed").GetString(), StringComparison.Ordinal);
    }

    [Fact]
    public async Task Handovers_ComeNewestFirst_PageByPage()
    {
        await using ServedShop shop = await ServedShop.OpenAsync();
        foreach (string job in new[] { "car-1", "car-2", "car-3" })
        {
            await shop.PostAsync("/api/v1/jobs", Asked.Car.Replace("grey-estate", job, StringComparison.Ordinal), HttpStatusCode.Created);
        }

        foreach (string job in new[] { "car-2", "car-3" })
        {
            shop.Clock.Advance(TimeSpan.FromMinutes(1));
            await shop.PostAsync($"/api/v1/jobs/{job}/handover", """{"by":"Robin","despite":"it must"}""", HttpStatusCode.OK);
        }

        JsonElement first = await shop.GetAsync($"{Handovers}?most=1");
        JsonElement left = first.GetProperty("handovers")[0];
        Assert.Equal(("car-3", "grey estate", "2026-05-04T08:02:00Z", true), (
            left.GetProperty("job").GetString(), left.GetProperty("car").GetString(), left.GetProperty("leftAt").GetString(), left.GetProperty("wasHeld").GetBoolean()));
        JsonElement second = await shop.GetAsync($"{Handovers}?before={first.GetProperty("next").GetInt64()}");
        Assert.Equal(["car-2"], second.GetProperty("handovers").EnumerateArray().Select(h => h.GetProperty("job").GetString()));
        Assert.Equal(JsonValueKind.Null, second.GetProperty("next").ValueKind);
    }

    [Fact]
    public async Task Handover_IsShownAsItWas()
    {
        await using ServedShop shop = await ServedShop.OpenAsync();
        await shop.PostAsync("/api/v1/jobs", Asked.Car, HttpStatusCode.Created);
        await shop.PassAsync(2);
        await shop.PostAsync("/api/v1/jobs/grey-estate/taps", """{"id":"t1","at":"2026-05-04T08:01:00Z","did":"wetted","by":"Robin","note":"rain"}""", HttpStatusCode.Created);
        string before = (await shop.GetAsync("/api/v1/jobs/grey-estate")).GetRawText();
        await shop.PostAsync("/api/v1/jobs/grey-estate/handover", """{"by":"Robin","despite":"it must"}""", HttpStatusCode.OK);
        await shop.PassAsync(3);
        JsonElement left = await shop.GetAsync($"{Handovers}/grey-estate");
        Assert.True(left.GetProperty("asItLeft").GetBoolean());
        Assert.Equal(WithoutNext(before), WithoutNext(left.GetProperty("document").GetRawText()));
        Assert.Equal(JsonValueKind.Null, left.GetProperty("document").GetProperty("next").ValueKind);
        Assert.Equal(("Robin", "it must"), (left.GetProperty("by").GetString(), left.GetProperty("despite").GetString()));
        JsonElement tap = Assert.Single(left.GetProperty("taps").EnumerateArray());
        Assert.Equal(("t1", "wetted", null), (tap.GetProperty("id").GetString(), tap.GetProperty("did").GetString(), tap.GetProperty("note").GetString()));
    }

    [Fact]
    public async Task Handover_OfACarThatIsHere_IsNotThere()
    {
        await using ServedShop shop = await ServedShop.OpenAsync();
        await shop.PostAsync("/api/v1/jobs", Asked.Car, HttpStatusCode.Created);
        Assert.Contains(
            "still here", (await shop.GetAsync($"{Handovers}/grey-estate", HttpStatusCode.NotFound)).GetProperty("detail").GetString(), StringComparison.Ordinal);
        Assert.Equal("No job 'nobody'.", (await shop.GetAsync($"{Handovers}/nobody", HttpStatusCode.NotFound)).GetProperty("detail").GetString());
    }

    [Fact]
    public async Task Book_ThatLags_SaysHowFarItIs()
    {
        var journal = new SlowJournal();
        await using ServedShop shop = await ServedShop.OpenBehindAsync(journal.Of);
        await shop.PostAsync("/api/v1/jobs", Asked.Car, HttpStatusCode.Created);
        await shop.PostAsync("/api/v1/jobs/grey-estate/handover", """{"despite":"it must"}""", HttpStatusCode.OK);
        foreach (string path in new[] { Past, Handovers, "/api/v1/bays/bay-1/probes/air/readings", "/api/v1/bays/bay-1/probes/gone/readings" })
        {
            JsonElement through = (await shop.GetAsync(path)).GetProperty("through");
            Assert.Equal((0, false), (through.GetProperty("entry").GetInt64(), through.GetProperty("complete").GetBoolean()));
        }

        JsonElement left = await shop.GetAsync($"{Handovers}/grey-estate");
        Assert.False(left.GetProperty("asItLeft").GetBoolean());
        Assert.Equal("grey-estate", left.GetProperty("document").GetProperty("job").GetString());

        journal.IsSlow = false;
        await Eventually.TrueAsync(() => shop.GetAsync(Handovers).GetAwaiter().GetResult().GetProperty("through").GetProperty("complete").GetBoolean(), "the book");
        Assert.Equal(1, (await shop.GetAsync(Handovers)).GetProperty("handovers").GetArrayLength());
        Assert.True((await shop.GetAsync($"{Handovers}/grey-estate")).GetProperty("asItLeft").GetBoolean());
    }

    [Fact]
    public async Task Book_ThatIsAway_IsAProblem_AndTheBayIsWatchedOn()
    {
        await using ServedShop shop = await ServedShop.OpenBehindAsync(_ => new NoJournal());
        await shop.PostAsync("/api/v1/jobs", Asked.Car, HttpStatusCode.Created);
        await shop.PostAsync("/api/v1/jobs/grey-estate/handover", """{"despite":"it must"}""", HttpStatusCode.OK);
        foreach (string path in new[] { Past, Handovers, $"{Handovers}/grey-estate", "/api/v1/bays/bay-1/probes/air/readings" })
        {
            JsonElement problem = await shop.GetAsync(path, HttpStatusCode.ServiceUnavailable);
            Assert.Contains("no such segment", problem.GetProperty("detail").GetString(), StringComparison.Ordinal);
        }

        await shop.PassAsync(1);
        Assert.Equal(20, (await shop.GetAsync("/api/v1/bays/bay-1")).GetProperty("climate").GetProperty("airC").GetDouble());
        await shop.GetAsync("/health/ready");
    }

    /// <summary>Nothing is next on a car that has left, nor is its night ahead, nor anything promised any more.</summary>
    private static string WithoutNext(string document)
    {
        JsonObject job = JsonNode.Parse(document)!.AsObject();
        job.Remove("next");
        job.Remove("then");
        job.Remove("arrival");
        job.Remove("arrivalAssumes");
        job.Remove("tonight");
        job.Remove("promise");
        return job.ToJsonString();
    }

    private static async Task<ServedShop> WithASilenceAsync()
    {
        ServedShop shop = await ServedShop.OpenAsync();
        await shop.PassAsync(1);
        shop.Clock.Advance(TimeSpan.FromMinutes(10));
        await shop.PassAsync(20);
        return shop;
    }

    private static IEnumerable<int> Numbers(JsonElement page) => page.GetProperty("warnings").EnumerateArray().Select(w => w.GetProperty("number").GetInt32());

    /// <summary>A journal that brings nothing new for as long as a test wants.</summary>
    private sealed class SlowJournal
    {
        public volatile bool IsSlow = true;

        public IJournalSteps Of(IJournalSteps journal) => new Steps(this, journal);

        private sealed class Steps(SlowJournal slow, IJournalSteps journal) : IJournalSteps
        {
            public IEnumerable<Step> After(long sequence)
            {
                while (slow.IsSlow)
                {
                    yield return new Step(0, DateTimeOffset.UnixEpoch, new Entry.ClockReached(), [], Register.Blank);
                }

                foreach (Step step in journal.After(sequence))
                {
                    yield return step;
                }
            }
        }
    }

    private sealed class NoJournal : IJournalSteps
    {
        public IEnumerable<Step> After(long sequence) => throw new IOException("no such segment");
    }
}
