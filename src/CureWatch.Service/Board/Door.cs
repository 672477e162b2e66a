using CureWatch.Service.Api;
using CureWatch.Service.People;
using CureWatch.Words;
using Microsoft.AspNetCore.Authentication.Cookies;
using Microsoft.AspNetCore.Authentication;

namespace CureWatch.Service.Board;

/// <summary>Lets a request through to its endpoint where its visitor may use it.</summary>
/// <remarks>Where nobody signs in it is not part of the service at all.</remarks>
internal sealed class Door(RequestDelegate next, Staff staff, TimeProvider clock)
{
    public async Task InvokeAsync(HttpContext context, Visitor visitor)
    {
        AuthenticateResult cookie = await context.AuthenticateAsync(CookieAuthenticationDefaults.AuthenticationScheme);
        SignedIn? signedIn = staff.Find(cookie.Principal?.Identity?.Name, clock.GetUtcNow());
        visitor.KnownAs(signedIn, () => signedIn is null || staff.Find(signedIn.Id, clock.GetUtcNow()) is not null);
        Role? needed = context.GetEndpoint() is { } endpoint ? Needed(endpoint) : Role.Screen; // where nothing is, whoever is in is told so
        if (needed is not { } least || signedIn?.Role >= least)
        {
            await next(context);
            return;
        }

        await Refuse(context, signedIn, least).ExecuteAsync(context);
    }

    private static Role? Needed(Endpoint endpoint) => endpoint.Metadata.GetMetadata<Lets>() is { } lets ? lets.Least : Role.Manager;

    private static IResult Refuse(HttpContext context, SignedIn? visitor, Role least)
    {
        bool isScript = BoardSetup.IsAskedByScript(context);
        Sentence needed = least == Role.Manager ? (Sentence)$"the manager" : $"somebody who works on the cars";
        return (visitor, isScript) switch
        {
            (null, true) => Problem.Of(StatusCodes.Status401Unauthorized, "Sign in first, at /sign-in."),
            (null, false) when HttpMethods.IsGet(context.Request.Method) => Results.LocalRedirect(SignInPages.LinkFrom(context.Request)),
            (null, false) => BoardEndpoints.Plain( // a redirect would look as if it had been taken down
                StatusCodes.Status401Unauthorized,
                $"Not told: sign in again",
                $"Your day here is over, or somebody signed this phone out. Sign in in another window; then load this page again, and what was filled in is sent again."),
            (_, true) => Problem.Of(StatusCodes.Status403Forbidden, $"This is for {needed}."),
            _ => BoardEndpoints.Plain(StatusCodes.Status403Forbidden, $"Not for you", $"This is for {needed}. Sign out, and in as somebody who may."),
        };
    }
}
