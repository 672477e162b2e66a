namespace CureWatch.Service.Api;

/// <summary>Looks at every request before anything else does: its host, where a write comes from; and sends every answer out guarded.</summary>
/// <param name="next">What answers.</param>
/// <param name="hosts">The names this service answers to.</param>
/// <param name="isSignedIn">Whether people sign in; else whoever is at this machine is meant, and nobody whom a proxy on it lets in.</param>
internal sealed class Doorkeeper(RequestDelegate next, HostRule hosts, bool isSignedIn)
{
    /// <summary>
    /// Everything from this origin and nothing inline. The referrer is kept inside the origin and not dropped altogether: without one,
    /// browsers say <c>Origin: null</c> with our own forms.
    /// </summary>
    private static readonly KeyValuePair<string, string>[] Guards =
    [
        new("Content-Security-Policy",
            "default-src 'none'; script-src 'self'; worker-src 'self'; style-src 'self'; img-src 'self'; connect-src 'self'; manifest-src 'self'; "
            + "form-action 'self'; base-uri 'none'; frame-ancestors 'none'"),
        new("X-Content-Type-Options", "nosniff"),
        new("X-Frame-Options", "DENY"),
        new("Referrer-Policy", "same-origin"),
        new("Cross-Origin-Opener-Policy", "same-origin"),
        new("Cross-Origin-Resource-Policy", "same-origin"),
        new("Cache-Control", "no-store"),
    ];

    /// <summary>By which a proxy says for whom it asks (RFC 7239, and what was usual before).</summary>
    private static readonly string[] SaidByAProxy = ["Forwarded", "X-Forwarded-For", "X-Forwarded-Host", "X-Forwarded-Proto"];

    public Task InvokeAsync(HttpContext context)
    {
        foreach ((string name, string value) in Guards)
        {
            context.Response.Headers[name] = value;
        }

        HttpRequest request = context.Request;
        if (!hosts.Allows(request.Host, context.Connection.LocalPort, request.IsHttps))
        {
            return Refuse(
                context,
                StatusCodes.Status421MisdirectedRequest,
                "This service answers to localhost and to the names in board.hosts of curewatch.json.");
        }

        if (!isSignedIn && SaidByAProxy.Any(request.Headers.ContainsKey))
        {
            return Refuse(
                context,
                StatusCodes.Status403Forbidden,
                "This came through a proxy, and nobody signs in here: set signIn under board in curewatch.json to true, or whoever reaches the proxy may do everything.");
        }

        bool isRead = HttpMethods.IsGet(request.Method) || HttpMethods.IsHead(request.Method) || HttpMethods.IsOptions(request.Method);
        if (!(isRead ? OriginRule.AllowsRead(request) : OriginRule.AllowsWrite(request, hosts)))
        {
            return Refuse(
                context,
                StatusCodes.Status403Forbidden,
                isRead
                    ? "Pages of another origin may link here, nothing more."
                    : "Writes come from this origin's own pages, or from a script as application/json without a cookie.");
        }

        return next(context);
    }

    private static Task Refuse(HttpContext context, int status, string detail) => Problem.Of(status, detail).ExecuteAsync(context);
}
