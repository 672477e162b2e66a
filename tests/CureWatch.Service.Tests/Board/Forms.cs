using System.Net;
using System.Text.RegularExpressions;
using CureWatch.Service.Tests.Api;

namespace CureWatch.Service.Tests.Board;

/// <summary>Looks at pages and presses their buttons, as a browser without scripts does.</summary>
internal static partial class Forms
{
    /// <summary>The page's text as a person reads it: without markup, one blank between words.</summary>
    public static async Task<string> WordsAsync(this ServedShop shop, string path) => Words(await shop.TextAsync(path));

    public static string Words(string html) => Blanks().Replace(WebUtility.HtmlDecode(Markup().Replace(html, " ")), " ").Trim();

    public static async Task<string> WordsAsync(this HttpResponseMessage answer) =>
        Words(await answer.Content.ReadAsStringAsync(TestContext.Current.CancellationToken));

    public static Task<HttpResponseMessage> SubmitAsync(this ServedShop shop, string action, params (string Name, string Value)[] fields) =>
        shop.SendAsync(
            HttpMethod.Post,
            action,
            new FormUrlEncodedContent(fields.Select(f => KeyValuePair.Create(f.Name, f.Value))),
            ("Origin", shop.Address.GetLeftPart(UriPartial.Authority)));

    /// <summary>Presses the button of a page that says this act for this section, with all its form carries.</summary>
    public static async Task<HttpResponseMessage> PressAsync(this ServedShop shop, string path, string did, string surface, int section = 1)
    {
        string html = await shop.TextAsync(path);
        foreach (Match form in Form().Matches(html))
        {
            (string Name, string Value)[] fields =
            [
                .. Field().Matches(form.Value).Select(f => (f.Groups[1].Value, WebUtility.HtmlDecode(f.Groups[2].Value))),
            ];
            if (fields.Contains(("did", did)) && fields.Contains(("surface", surface)) && fields.Contains(("section", $"{section}")))
            {
                return await shop.SubmitAsync(form.Groups[1].Value, fields);
            }
        }

        throw new InvalidOperationException($"No button '{did}' for {surface} {section} on {path}.");
    }

    public static void AssertSeesOther(this HttpResponseMessage answer, string where)
    {
        Assert.Equal(HttpStatusCode.SeeOther, answer.StatusCode);
        Assert.Equal(where, answer.Headers.Location?.ToString());
    }

    [GeneratedRegex("<[^>]*>")]
    private static partial Regex Markup();

    [GeneratedRegex(@"\s+")]
    private static partial Regex Blanks();

    [GeneratedRegex("""<form method="post" action="([^"]*)"[^>]*>.*?</form>""", RegexOptions.Singleline)]
    private static partial Regex Form();

    [GeneratedRegex("""<(?:input type="hidden"|button) name="([^"]*)" value="([^"]*)""")]
    private static partial Regex Field();
}
