using System.Net;
using System.Text.Json;
using System.Text.RegularExpressions;
using CureWatch.Service.Tests.Api;
using CureWatch.Service.Tests.Board;

namespace CureWatch.Service.Tests.Phone;

/// <summary>A thumb on the phone's pages, with scripts switched off.</summary>
internal static partial class Thumb
{
    public const string Car = "/bay/bay-1/jobs/grey-estate";

    public static async Task<ServedShop> OpenWithCarAsync(string car = Asked.Car)
    {
        ServedShop shop = await ServedShop.OpenAsync();
        await shop.PassAsync(1);
        await shop.PostAsync("/api/v1/jobs", car, HttpStatusCode.Created);
        return shop;
    }

    /// <summary>Presses the first button of a page that tells this, with what its form carries and what was chosen in it.</summary>
    public static async Task<HttpResponseMessage> TapAsync(this ServedShop shop, string path, string did, params (string Name, string Value)[] chosen)
    {
        Match form = Form().Matches(await shop.TextAsync(path)).FirstOrDefault(f => f.Value.Contains($"value=\"{did}\"", StringComparison.Ordinal))
            ?? throw new InvalidOperationException($"No button '{did}' on {path}.");
        IEnumerable<(string Name, string Value)> carried = Hidden().Matches(form.Value).Select(h => (h.Groups[1].Value, WebUtility.HtmlDecode(h.Groups[2].Value)));
        (string, string)[] fields = [.. carried.Where(c => c.Name != "did"), .. chosen, ("did", did)];
        return await shop.SubmitAsync(form.Groups[1].Value, fields);
    }

    /// <summary>Presses a button of the page of what was told by its words, with what its form carries and what was changed in it.</summary>
    public static async Task CorrectAsync(this ServedShop shop, string words, params (string Name, string Value)[] changed)
    {
        Match form = Form().Matches(await shop.TextAsync($"{Car}/told")).First(f => f.Value.Contains($">{words}<", StringComparison.Ordinal));
        IEnumerable<(string, string)> carried = Hidden().Matches(form.Value).Select(h => (h.Groups[1].Value, WebUtility.HtmlDecode(h.Groups[2].Value)));
        using HttpResponseMessage answer = await shop.SubmitAsync(form.Groups[1].Value, [.. carried, .. changed]);
        answer.AssertSeesOther(Car);
    }

    /// <summary>The same, and it has to be taken.</summary>
    public static async Task TellAsync(this ServedShop shop, string did, params (string Name, string Value)[] chosen)
    {
        using HttpResponseMessage answer = await shop.TapAsync(Car, did, chosen);
        answer.AssertSeesOther(Car);
    }

    public static async Task<JsonElement[]> TapsAsync(this ServedShop shop, string job = "grey-estate") =>
        [.. (await shop.GetAsync($"/api/v1/jobs/{job}/taps")).GetProperty("taps").EnumerateArray()];

    public static string? Of(this JsonElement tap, string key) => tap.TryGetProperty(key, out JsonElement value) ? value.ToString() : null;

    [GeneratedRegex("""<form method="post" action="([^"]*)"[^>]*>.*?</form>""", RegexOptions.Singleline)]
    private static partial Regex Form();

    [GeneratedRegex("""<input type="hidden" name="([^"]*)" value="([^"]*)""")]
    private static partial Regex Hidden();
}
