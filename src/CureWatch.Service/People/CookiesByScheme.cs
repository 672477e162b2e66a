using Microsoft.AspNetCore.Authentication.Cookies;

namespace CureWatch.Service.People;

/// <summary>
/// Cookies that have one name by plain HTTP and another by HTTPS. A browser never lets the first take the place of the second: whoever uses both would
/// be signed in nowhere. The prefix has the browser take such a cookie from this host alone, and by HTTPS alone (RFC 6265bis, from memory).
/// </summary>
internal sealed class CookiesByScheme : ICookieManager
{
    private readonly ChunkingCookieManager _cookies = new();

    public static string NameOf(HttpContext context, string name) => context.Request.IsHttps ? $"__Host-{name}" : name;

    public string? GetRequestCookie(HttpContext context, string key) => _cookies.GetRequestCookie(context, NameOf(context, key));

    public void AppendResponseCookie(HttpContext context, string key, string? value, CookieOptions options) =>
        _cookies.AppendResponseCookie(context, NameOf(context, key), value, options);

    public void DeleteCookie(HttpContext context, string key, CookieOptions options) => _cookies.DeleteCookie(context, NameOf(context, key), options);
}
