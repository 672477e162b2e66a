using CureWatch.Service.Handbook;
using CureWatch.Service.Tests.Api;
using CureWatch.Service.Tongues;
using Microsoft.AspNetCore.Routing;
using Microsoft.Extensions.DependencyInjection;

namespace CureWatch.Browser.Tests;

/// <summary>The addresses of all pages of a shop, from the service itself, so that a new one cannot be forgotten.</summary>
internal static class EveryPage
{
    private static readonly string[] NoPages = ["/api", "/assets", "/health", "/openapi", "/worker.js", "/certificate/"];

    /// <summary>Of the handbook every tenth chapter: all are set alike, and what is on demand looks at each.</summary>
    public static IEnumerable<string> ButForChaptersSetAlike(ServedShop shop, string job)
    {
        string[] pages = [.. Of(shop, job)], chapters = [.. pages.Where(p => p.StartsWith("/handbook/", StringComparison.Ordinal))];
        return pages.Except(chapters.Where((_, i) => i % 10 != 0));
    }

    public static IEnumerable<string> Of(ServedShop shop, string job) => shop.Services.GetRequiredService<EndpointDataSource>().Endpoints.OfType<RouteEndpoint>()
        .Where(e => e.Metadata.GetMetadata<HttpMethodMetadata>()?.HttpMethods.Contains("GET") == true)
        .Select(e => e.RoutePattern.RawText!)
        .Where(path => !NoPages.Any(no => path.StartsWith(no, StringComparison.Ordinal)))
        .SelectMany(path => path == "/handbook/{chapter}" ? HandbookText.In(Language.English).InOrder.Select(s => s.Address).Append("/handbook?q=panel") : [path])
        .Select(path => path.Replace("{bay}", "bay-1", StringComparison.Ordinal).Replace("{job}", job, StringComparison.Ordinal))
        .Where(path => !path.Contains('{', StringComparison.Ordinal))
        .Order();
}
