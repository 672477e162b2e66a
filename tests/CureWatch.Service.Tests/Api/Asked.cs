using System.Net;
using System.Net.Http.Headers;
using System.Text;
using System.Text.Json;

namespace CureWatch.Service.Tests.Api;

/// <summary>Asks a served shop over HTTP, as a script does.</summary>
internal static class Asked
{
    public const string Car =
        """
        {"job":"grey-estate","bay":"bay-1","car":"grey estate","promisedAt":"2026-05-05T10:00:00Z",
         "surfaces":[{"surface":"bonnet","material":"steel","product":"paint","sections":2},{"surface":"wheels","material":"casting","place":"off-car","product":"paint"}]}
        """;

    public static async Task<JsonElement> GetAsync(this ServedShop shop, string path, HttpStatusCode expected = HttpStatusCode.OK)
    {
        using HttpResponseMessage answer = await shop.Client.GetAsync(path);
        return await answer.DocumentAsync(expected);
    }

    public static async Task<JsonElement> PostAsync(this ServedShop shop, string path, string json, HttpStatusCode expected)
    {
        using HttpResponseMessage answer = await shop.Client.PostAsync(path, Json(json));
        return await answer.DocumentAsync(expected);
    }

    public static Task<string> TextAsync(this ServedShop shop, string path) => shop.Client.GetStringAsync(path, TestContext.Current.CancellationToken);

    public static Task<HttpResponseMessage> SendAsync(this ServedShop shop, HttpMethod method, string path, HttpContent? body = null, params (string Name, string Value)[] headers)
    {
        var request = new HttpRequestMessage(method, path) { Content = body };
        foreach ((string name, string value) in headers)
        {
            request.Headers.TryAddWithoutValidation(name, value);
        }

        return shop.Client.SendAsync(request, HttpCompletionOption.ResponseHeadersRead, TestContext.Current.CancellationToken);
    }

    public static StringContent Json(string json) => new(json, Encoding.UTF8, "application/json");

    public static async Task<JsonElement> DocumentAsync(this HttpResponseMessage answer, HttpStatusCode expected)
    {
        string text = await answer.Content.ReadAsStringAsync();
        Assert.True(answer.StatusCode == expected, $"{answer.StatusCode}: {text}");
        MediaTypeHeaderValue? type = answer.Content.Headers.ContentType;
        Assert.Equal((int)expected < 400 ? "application/json" : "application/problem+json", type?.MediaType);
        return JsonElement.Parse(text);
    }

    /// <summary>Demands that a question is refused, and that the refusal names exactly these parameters.</summary>
    public static async Task AssertCannotBeAskedAsync(this ServedShop shop, string path, params string[] parameters)
    {
        JsonElement problem = await shop.GetAsync(path, HttpStatusCode.BadRequest);
        Assert.Equal(parameters, problem.GetProperty("faults").EnumerateArray().Select(f => f.GetProperty("place").GetString()));
    }

    /// <summary>Demands a refusal that names exactly these places.</summary>
    public static async Task AssertFaultyAsync(this ServedShop shop, string path, string json, params string[] places)
    {
        JsonElement problem = await shop.PostAsync(path, json, HttpStatusCode.BadRequest);
        Assert.Equal(places, problem.GetProperty("faults").EnumerateArray().Select(f => f.GetProperty("place").GetString()));
    }
}
