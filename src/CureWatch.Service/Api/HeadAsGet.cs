namespace CureWatch.Service.Api;

/// <summary>
/// Answers HEAD as GET without the body (RFC 9110, section 9.3.2), for whoever only wants to know whether we are there. The live feed never
/// ends, so that one still has to be got.
/// </summary>
internal sealed class HeadAsGet(RequestDelegate next)
{
    private static readonly PathString Endless = "/api/v1/live";

    public async Task InvokeAsync(HttpContext context)
    {
        if (!HttpMethods.IsHead(context.Request.Method) || context.Request.Path == Endless)
        {
            await next(context);
            return;
        }

        Stream body = context.Response.Body;
        context.Request.Method = HttpMethods.Get;
        context.Response.Body = Stream.Null;
        try
        {
            await next(context);
        }
        finally
        {
            context.Request.Method = HttpMethods.Head;
            context.Response.Body = body;
        }
    }
}
