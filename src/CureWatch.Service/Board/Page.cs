using System.Net.Mime;
using System.Text;
using Microsoft.AspNetCore.Components;
using Microsoft.AspNetCore.Components.Web;

namespace CureWatch.Service.Board;

/// <summary>
/// A page, rendered here and sent as it is. The renderer is used by itself: the components' own endpoints would bring antiforgery tokens, which
/// guard nothing where nobody logs in, and write their keys into somebody's home folder.
/// </summary>
internal sealed class Page<T>(int status, params (string Name, object? Value)[] parameters) : IResult
    where T : IComponent
{
    public async Task ExecuteAsync(HttpContext httpContext)
    {
        byte[] body = await RenderAsync(httpContext.RequestServices);
        httpContext.Response.StatusCode = status;
        httpContext.Response.ContentType = $"{MediaTypeNames.Text.Html}; charset=utf-8";
        httpContext.Response.ContentLength = body.Length;
        await httpContext.Response.Body.WriteAsync(body, httpContext.RequestAborted);
    }

    /// <summary>The page, in UTF-8.</summary>
    public async Task<byte[]> RenderAsync(IServiceProvider services)
    {
        await using var renderer = new HtmlRenderer(services, services.GetRequiredService<ILoggerFactory>());
        string html = await renderer.Dispatcher.InvokeAsync(async () =>
        {
            var view = ParameterView.FromDictionary(parameters.ToDictionary(p => p.Name, p => p.Value));
            return (await renderer.RenderComponentAsync<T>(view)).ToHtmlString();
        });
        return Encoding.UTF8.GetBytes(html);
    }
}
