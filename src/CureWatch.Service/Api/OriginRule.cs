using Microsoft.Extensions.Primitives;
using Microsoft.Net.Http.Headers;

namespace CureWatch.Service.Api;

/// <summary>
/// Which writes come from our own pages, or from no browser at all. There is no antiforgery token: this rule, together with
/// <see cref="HostRule"/>, is what keeps a foreign page from telling taps.
/// </summary>
/// <remarks>
/// The first of three headers that is there decides, and it must name this very origin: Origin, which every browser of today sends with a
/// write and no page can forge; Sec-Fetch-Site; Referer. This origin is also a name in board.hosts by HTTPS, which a proxy before us ends. With none of them it is a script: it must bring JSON, which a foreign page can't send
/// without asking first (we never say yes), and no cookie, which a script has no reason to send.
/// </remarks>
internal static class OriginRule
{
    private const string FetchSite = "Sec-Fetch-Site";
    private const string FetchMode = "Sec-Fetch-Mode";

    /// <summary>Whether a request that only reads may be answered: a foreign page may link here, but neither embed nor poll.</summary>
    public static bool AllowsRead(HttpRequest request) =>
        Single(request, FetchSite) is null or "same-origin" or "none" || Single(request, FetchMode) is "navigate";

    /// <summary>Whether a request that writes may be answered.</summary>
    public static bool AllowsWrite(HttpRequest request, HostRule hosts)
    {
        if (Single(request, HeaderNames.Origin) is { } origin)
        {
            return IsOwn(origin, request, hosts);
        }

        if (Single(request, FetchSite) is { } site)
        {
            return site == "same-origin";
        }

        if (Single(request, HeaderNames.Referer) is { } referer)
        {
            return Uri.TryCreate(referer, UriKind.Absolute, out Uri? from) && IsOwn(from.GetLeftPart(UriPartial.Authority), request, hosts);
        }

        return IsJson(request) && StringValues.IsNullOrEmpty(request.Headers.Cookie);
    }

    public static bool IsJson(HttpRequest request) =>
        MediaTypeHeaderValue.TryParse(request.ContentType, out MediaTypeHeaderValue? type)
        && type.MediaType.Equals(JsonAnswer.Json, StringComparison.OrdinalIgnoreCase)
        && (!type.Charset.HasValue || type.Charset.Equals("utf-8", StringComparison.OrdinalIgnoreCase));

    private static bool IsOwn(string origin, HttpRequest request, HostRule hosts) =>
        origin.Equals($"{request.Scheme}://{request.Host}", StringComparison.OrdinalIgnoreCase) || hosts.IsNamedByHttps(origin, request.Host);

    /// <summary>The header as a whole: one that is there twice equals nothing that is allowed.</summary>
    private static string? Single(HttpRequest request, string header) =>
        request.Headers.TryGetValue(header, out StringValues values) ? values.ToString() : null;
}
