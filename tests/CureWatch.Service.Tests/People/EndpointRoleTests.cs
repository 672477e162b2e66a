using System.Net;
using CureWatch.Service.People;
using CureWatch.Service.Tests.Api;
using Microsoft.AspNetCore.Routing;
using Microsoft.AspNetCore.Routing.Patterns;
using Microsoft.Extensions.DependencyInjection;

namespace CureWatch.Service.Tests.People;

/// <summary>Every endpoint, by every method it has, for everybody: the list comes from the service itself, so that a new one cannot be forgotten.</summary>
public class EndpointRoleTests
{
    private static readonly string[] OpenToEverybody =
    [
        "/health/live", "/health/ready", "/assets/{version}/{name}", "/worker.js", "/certificate", "/certificate/authority.cer", "/sign-in", "/sign-out", "/set-up",
        "/pair", "/handbook", "/handbook/{chapter}", "/tongue",
    ];

    private static readonly string[] OfTheManager =
        ["/people", "/people/pin", "/people/remove", "/people/sign-out", "/pair/{code}", "/learning/reset", "/api/v1/learning/reset",
        "/jobs/{job}/photos/{photo}/remove"];

    [Fact]
    public async Task EveryEndpoint_SaysWhoMayUseIt()
    {
        await using ServedShop shop = await ServedShop.OpenWithPeopleAsync();
        Assert.All(EndpointsOf(shop), e =>
        {
            Lets? lets = e.Metadata.GetMetadata<Lets>();
            Assert.True(lets is not null, $"{e.RoutePattern.RawText} says nothing");
            string path = e.RoutePattern.RawText!;
            bool isRead = MethodsOf(e) is ["GET"];
            Role? expected = OpenToEverybody.Contains(path) ? null : OfTheManager.Contains(path) ? Role.Manager : isRead ? Role.Screen : Role.Technician;
            Assert.True(lets.Least == expected, $"{string.Join(' ', MethodsOf(e))} {path} lets {lets.Least}, expected {expected}");
        });
    }

    [Fact]
    public async Task EveryEndpoint_AnswersEveryRole_AsItSays()
    {
        await using ServedShop shop = await ServedShop.OpenWithPeopleAsync();
        using Browser manager = await Browser.OfManagerAsync(shop);
        using Browser technician = await Browser.OfTechnicianAsync(shop, manager);
        using Browser screen = await Browser.OfScreenAsync(shop, manager);
        using var nobody = new Browser(shop);
        (Role? Role, Browser Browser)[] visitors = [(null, nobody), (Role.Screen, screen), (Role.Technician, technician), (Role.Manager, manager)];
        foreach (RouteEndpoint endpoint in EndpointsOf(shop).OrderBy(e => e.RoutePattern.RawText == "/sign-out"))
        {
            foreach (string method in MethodsOf(endpoint))
            {
                foreach ((Role? role, Browser browser) in visitors)
                {
                    string path = string.Concat(endpoint.RoutePattern.PathSegments.SelectMany(s => s.Parts.Select(PartOf).Prepend("/")));
                    using HttpResponseMessage answer = await browser.SendAsync(new HttpMethod(method), path.Length > 0 ? path : "/");
                    bool isRefused = answer.StatusCode is HttpStatusCode.Unauthorized or HttpStatusCode.Forbidden
                        || (answer.StatusCode == HttpStatusCode.Redirect && answer.Headers.Location!.ToString().StartsWith("/sign-in", StringComparison.Ordinal));
                    bool mayUseIt = endpoint.Metadata.GetMetadata<Lets>()!.Least is not { } least || role >= least;
                    Assert.True(isRefused != mayUseIt || IsAboutSigningIn(path), $"{method} {path} as {role}: {answer.StatusCode}");
                }
            }
        }
    }

    private static bool IsAboutSigningIn(string path) => path is "/set-up" or "/sign-in"; // they redirect and refuse on their own account

    private static IReadOnlyList<string> MethodsOf(RouteEndpoint endpoint) => endpoint.Metadata.GetMetadata<HttpMethodMetadata>()?.HttpMethods ?? ["GET"];

    private static string PartOf(RoutePatternPart part) =>
        part is RoutePatternLiteralPart literal ? literal.Content : "bay-1";

    private static IEnumerable<RouteEndpoint> EndpointsOf(ServedShop shop) =>
        shop.Services.GetRequiredService<EndpointDataSource>().Endpoints.OfType<RouteEndpoint>();
}
