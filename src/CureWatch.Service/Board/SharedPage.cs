using System.Net.Mime;
using CureWatch.Service.Api;
using CureWatch.Service.Backups;
using CureWatch.Service.People;
using CureWatch.Service.Tongues;
using Microsoft.AspNetCore.Components;
using Microsoft.Net.Http.Headers;

namespace CureWatch.Service.Board;

/// <summary>A page that shows a look at the shop and nothing else, the same to all who ask alike.</summary>
/// <param name="look">The look.</param>
/// <param name="page">The page, worked out where nobody has asked for it yet.</param>
internal sealed class SharedPage<T>(Look look, Func<Page<T>> page) : IResult
    where T : IComponent
{
    private const string Brotli = "br";

    public async Task ExecuteAsync(HttpContext httpContext)
    {
        if (httpContext.Request.QueryString.HasValue)
        {
            await page().ExecuteAsync(httpContext); // the page leads back to it, and nobody else asks so
            return;
        }

        IServiceProvider services = httpContext.RequestServices;
        (HttpRequest request, HttpResponse response) = (httpContext.Request, httpContext.Response);
        Tongue tongue = services.GetRequiredService<Tongue>();
        SignedIn? visitor = Visitor.Of(httpContext).SignedIn;
        var asked = new SharedPages.Asked(
            request.Path, tongue.Language, tongue.IsFahrenheit, visitor?.Name, visitor?.Role, services.GetRequiredService<BackupHealth>().Newest?.At);
        SharedPages.Packed packed = await services.GetRequiredService<SharedPages>().Of(look, asked, () => page().RenderAsync(services));
        bool isPacked = !request.IsHttps && request.GetTypedHeaders().AcceptEncoding.Any(a => a.Value == Brotli && a.Quality is not 0); // by HTTPS nothing is
        if (isPacked)
        {
            response.Headers.ContentEncoding = Brotli;
            response.Headers.Vary = HeaderNames.AcceptEncoding;
        }

        byte[] body = isPacked ? packed.Brotli : packed.Html;
        response.ContentType = $"{MediaTypeNames.Text.Html}; charset=utf-8";
        response.ContentLength = body.Length;
        await response.Body.WriteAsync(body, httpContext.RequestAborted);
    }
}
