using System.Net;
using System.Text.Json;
using System.Text.Json.Nodes;
using Json.Schema;
using Microsoft.AspNetCore.Routing;
using Microsoft.Extensions.DependencyInjection;

namespace CureWatch.Service.Tests.Api;

public class ApiDescriptionTests
{
    private static readonly Dictionary<string, string> Words = new()
    {
        ["product"] = "paint", ["revision"] = "1", ["material"] = "steel", ["place"] = "cabin", ["surface"] = "bonnet", ["people"] = "2",
    };

    private const string OnceItLeft = "/api/v1/handovers/{job}", WhileItIsHere = "/api/v1/jobs/{job}/promise";

    [Fact]
    public async Task Description_ListsEveryEndpoint()
    {
        await using ServedShop shop = await ServedShop.OpenAsync();
        string[] mapped =
        [
            .. from endpoint in shop.Services.GetRequiredService<EndpointDataSource>().Endpoints.OfType<RouteEndpoint>()
               let path = $"/{endpoint.RoutePattern.RawText!.TrimStart('/')}"
               where path.StartsWith("/api", StringComparison.Ordinal) || path.StartsWith("/health", StringComparison.Ordinal)
               from method in endpoint.Metadata.GetRequiredMetadata<HttpMethodMetadata>().HttpMethods
               let line = $"{method} {path}"
               orderby line
               select line,
        ];
        JsonElement description = await shop.GetAsync("/openapi/v1.json");
        string[] described =
        [
            .. from path in description.GetProperty("paths").EnumerateObject()
               from operation in path.Value.EnumerateObject()
               let line = $"{operation.Name.ToUpperInvariant()} {path.Name}"
               orderby line
               select line,
        ];
        Assert.NotEmpty(mapped);
        Assert.Equal(mapped, described);
        Assert.StartsWith("3.1", description.GetProperty("openapi").GetString(), StringComparison.Ordinal);
    }

    // A parameter that is described is taken, and one that is not described is not: it would be a fault.
    [Fact]
    public async Task Parameter_InTheDescription_IsOneThatIsKnown()
    {
        await using ServedShop shop = await ServedShop.OpenAsync();
        await shop.PostAsync("/api/v1/jobs", Asked.Car, HttpStatusCode.Created);
        JsonElement description = await shop.GetAsync("/openapi/v1.json");
        (string Path, JsonElement Parameter)[] parameters =
        [
            .. from path in description.GetProperty("paths").EnumerateObject()
               from operation in path.Value.EnumerateObject()
               where operation.Value.TryGetProperty("parameters", out _)
               from parameter in operation.Value.GetProperty("parameters").EnumerateArray()
               where parameter.GetProperty("in").GetString() == "query"
               select (path.Name, parameter),
        ];
        Assert.Equal(16, parameters.Length);
        foreach ((string path, JsonElement parameter) in parameters)
        {
            string name = parameter.GetProperty("name").GetString()!;
            string asked = path.Replace("{job}", "grey-estate", StringComparison.Ordinal).Replace("{bay}", "bay-1", StringComparison.Ordinal).Replace("{probe}", "air", StringComparison.Ordinal);
            string value = Words.GetValueOrDefault(name, parameter.GetProperty("schema").TryGetProperty("format", out JsonElement format) && format.GetString() == "date-time" ? "2026-05-04T08:00:00Z" : "7");
            string needed = path.EndsWith("/start", StringComparison.Ordinal) && path.StartsWith("/api/v1/bays", StringComparison.Ordinal)
                ? string.Concat(new[] { "product", "material" }.Where(n => n != name).Select(n => $"&{n}={Words[n]}"))
                : "";
            await shop.GetAsync($"{asked}?{name}={value}{needed}");
        }
    }

    [Fact]
    public async Task Reference_LeadsSomewhere()
    {
        await using ServedShop shop = await ServedShop.OpenAsync();
        JsonNode description = JsonNode.Parse(await shop.TextAsync("/openapi/v1.json"))!;
        JsonObject schemas = description["components"]!["schemas"]!.AsObject();
        string[] references = [.. References(description).Distinct()];
        Assert.NotEmpty(references);
        Assert.All(references, r => Assert.True(schemas.ContainsKey(r.Split('/')[^1]) && r.StartsWith("#/components/schemas/", StringComparison.Ordinal), r));
        Assert.All(schemas, s => Assert.Contains($"#/components/schemas/{s.Key}", references));
    }

    // Every answer that has a document of its own is held against the schema the description gives for it.
    [Fact]
    public async Task Answers_AreAsDescribed()
    {
        await using ServedShop shop = await ServedShop.OpenAsync();
        await shop.PassAsync(1);
        await shop.PostAsync("/api/v1/jobs", Asked.Car, HttpStatusCode.Created);
        await shop.PostAsync("/api/v1/jobs/grey-estate/taps", """{"id":"a","at":"2026-05-04T08:01:00Z","did":"applied"}""", HttpStatusCode.Created);
        await shop.PassAsync(4);
        await shop.PostAsync("/api/v1/jobs/grey-estate/taps", """{"at":"2026-05-04T08:04:00Z","did":"levelled","corrects":"a"}""", HttpStatusCode.Created);
        await shop.PostAsync("/api/v1/jobs/grey-estate/taps", """{"at":"2026-05-04T08:05:00Z","did":"inspected","found":"streak"}""", HttpStatusCode.Created);
        await shop.PostAsync("/api/v1/jobs/grey-estate/taps", """{"at":"2026-05-04T08:05:00Z","did":"applied"}""", HttpStatusCode.Created);
        await shop.PostAsync("/api/v1/plan/work", """{"bay":"bay-1","work":"washing","from":"2026-05-04T09:00:00Z","to":"2026-05-04T12:00:00Z"}""", HttpStatusCode.Created);
        await shop.PostAsync("/api/v1/jobs", Asked.Car.Replace("grey-estate", "blue-hatch", StringComparison.Ordinal).Replace("{\"job\"", "{\"arrivesAt\":\"2026-05-05T09:00:00Z\",\"job\"", StringComparison.Ordinal), HttpStatusCode.Created);
        shop.Clock.Advance(TimeSpan.FromHours(3));
        await AssertAnswersAsync(shop);
        await shop.PostAsync("/api/v1/jobs/grey-estate/handover", """{"despite":"it must"}""", HttpStatusCode.OK);
        await AssertAnswersAsync(shop);
    }

    private static async Task AssertAnswersAsync(ServedShop shop)
    {
        JsonNode description = JsonNode.Parse(await shop.TextAsync("/openapi/v1.json"))!;
        foreach ((string path, JsonNode? operations) in description["paths"]!.AsObject())
        {
            if (operations!["get"]?["responses"]?["200"]?["content"]?["application/json"]?["schema"]?["$ref"]?.GetValue<string>() is { } reference)
            {
                string asked = path.Replace("{job}", "grey-estate", StringComparison.Ordinal)
                    .Replace("{bay}/start", "bay-1/start?product=paint&material=glass", StringComparison.Ordinal)
                    .Replace("{bay}", "bay-1", StringComparison.Ordinal).Replace("{probe}", "air", StringComparison.Ordinal)
                    .Replace("{id}", "washing-1", StringComparison.Ordinal);
                int answered = await AssertAnswerAsync(shop, description, reference, asked);
                Assert.True(answered == 200 || (path == OnceItLeft && answered == 404) || (path == WhileItIsHere && answered == 409), $"{asked}: {answered}");
                await AssertAnswerAsync(shop, description, reference, path);
            }
        }
    }

    private static async Task<int> AssertAnswerAsync(ServedShop shop, JsonNode description, string reference, string asked)
    {
        using HttpResponseMessage answer = await shop.SendAsync(HttpMethod.Get, asked);
        string text = await answer.Content.ReadAsStringAsync(TestContext.Current.CancellationToken);
        AssertValid(description, answer.IsSuccessStatusCode ? reference : "#/components/schemas/problem", text, asked);
        return (int)answer.StatusCode;
    }

    private static void AssertValid(JsonNode description, string reference, string answer, string asked)
    {
        var root = new JsonObject { ["$ref"] = reference, ["$defs"] = description["components"]!["schemas"]!.DeepClone() };
        string schema = root.ToJsonString().Replace("#/components/schemas/", "#/$defs/", StringComparison.Ordinal);
        EvaluationResults results = JsonSchema.FromText(schema, new BuildOptions { SchemaRegistry = new SchemaRegistry() })
            .Evaluate(JsonElement.Parse(answer), new EvaluationOptions { OutputFormat = OutputFormat.List });
        Assert.True(
            results.IsValid,
            $"{asked}: {string.Join("; ", (results.Details ?? []).Where(d => d.Errors is not null).Select(d => $"{d.InstanceLocation} {string.Join(", ", d.Errors!.Values)}"))}\n{answer}");
    }

    private static IEnumerable<string> References(JsonNode? node) => node switch
    {
        JsonObject o => o.SelectMany(p => p.Key == "$ref" ? [p.Value!.GetValue<string>()] : References(p.Value)),
        JsonArray a => a.SelectMany(References),
        _ => [],
    };
}
