using System.Globalization;
using CureWatch.Service.Api;
using CureWatch.Service.People;
using CureWatch.Words;
using Microsoft.AspNetCore.Http.HttpResults;

namespace CureWatch.Service.Board;

/// <summary>Signing in and out, and making the first manager.</summary>
internal static class SignInPages
{
    public const string Path = "/sign-in";

    public static void Map(IEndpointRouteBuilder app)
    {
        app.MapGet(Path, (HttpContext context, Staff staff, Lookout lookout) => staff.List.HasManager
            ? SignIn(lookout, "", ThenOf(context.Request.Query["then"]), [])
            : Results.LocalRedirect("/set-up")).ExcludeFromDescription().LetsEverybody();
        app.MapPost(Path, SignInAsync).ExcludeFromDescription().LetsEverybody();
        app.MapPost("/sign-out", SignOutAsync).ExcludeFromDescription().LetsEverybody();
        app.MapGet("/set-up", (Staff staff, Lookout lookout) => staff.List.HasManager ? Results.LocalRedirect(Path) : SetUp(lookout, "", []))
            .ExcludeFromDescription().LetsEverybody();
        app.MapPost("/set-up", SetUpAsync).ExcludeFromDescription().LetsEverybody();
    }

    /// <summary>Where somebody signs in who wanted to see a page, and gets to see it afterwards.</summary>
    public static string LinkFrom(HttpRequest request) => HttpMethods.IsGet(request.Method) && request.Path != "/"
        ? $"{Path}?then={Uri.EscapeDataString(request.Path + request.QueryString)}"
        : Path;

    public static string AddressOf(HttpContext context) => context.Connection.RemoteIpAddress?.ToString() ?? "";

    private static async Task<IResult> SignInAsync(HttpContext context, SignInDesk desk, BrowserCookies cookies, Lookout lookout, ILogger<SignInDesk> log)
    {
        if (await BoardForms.FormAsync(context) is not { } form)
        {
            return BoardForms.NoForm();
        }

        string name = form["name"].ToString().Trim();
        string then = ThenOf(form["then"]);
        switch (await desk.SignInAsync(name, form["pin"].ToString().Trim(), cookies.DeviceOf(context, name), AddressOf(context)))
        {
            case Greeting.Welcome welcome:
                await BrowserCookies.SignInAsync(context, welcome.As);
                cookies.KeepDevice(context, welcome.As.Name);
                return BoardForms.SeeOther(context, then);
            case Greeting.Later later:
                context.Response.Headers.RetryAfter = Math.Ceiling(later.After.TotalSeconds).ToString(CultureInfo.InvariantCulture);
                return SignIn(lookout, name, then, [$"too many wrong PINs: wait {WaitOf(later.After)}"], StatusCodes.Status429TooManyRequests);
            case Greeting.Busy busy:
                context.Response.Headers.RetryAfter = Math.Ceiling(busy.After.TotalSeconds).ToString(CultureInfo.InvariantCulture);
                return SignIn(lookout, name, then, [$"many people sign in just now: try again"], StatusCodes.Status503ServiceUnavailable);
            default:
                People.Log.WrongPin(log, AddressOf(context));
                return SignIn(lookout, name, then, [$"that name and that PIN do not go together"], StatusCodes.Status401Unauthorized);
        }
    }

    private static async Task<IResult> SignOutAsync(HttpContext context, Staff staff, Visitor visitor)
    {
        if (visitor.SignedIn is { } signedIn)
        {
            staff.Change(list => list.SignedOut(signedIn.Id));
        }

        await BrowserCookies.SignOutAsync(context);
        return BoardForms.SeeOther(context, Path);
    }

    private static async Task<IResult> SetUpAsync(HttpContext context, Staff staff, Pins pins, SetUpCode code, SignInDesk desk, BrowserCookies cookies, Lookout lookout)
    {
        if (await BoardForms.FormAsync(context) is not { } form)
        {
            return BoardForms.NoForm();
        }

        string name = form["name"].ToString().Trim();
        string pin = form["pin"].ToString().Trim();
        Sentence? fault = staff.List.HasManager ? $"there is a manager already"
            : !code.Is(form["code"].ToString()) ? $"that is not the code that was printed last"
            : Names.Lack(name) ?? Pins.Lack(Role.Manager, pin);
        if (fault is not null)
        {
            return SetUp(lookout, name, [fault], StatusCodes.Status400BadRequest);
        }

        var manager = new Person(name, Role.Manager, pins.Hash(pin));
        if (!staff.Change(list => list.HasManager ? list : list.With(manager)).People.Contains(manager))
        {
            return SetUp(lookout, name, [$"somebody else was quicker"], StatusCodes.Status409Conflict);
        }

        await BrowserCookies.SignInAsync(context, desk.SignIn(name, Role.Manager, AddressOf(context)));
        cookies.KeepDevice(context, name);
        return BoardForms.SeeOther(context, "/people");
    }

    private static Sentence WaitOf(TimeSpan wait) => wait < TimeSpan.FromMinutes(1)
        ? (Sentence)$"{(int)Math.Ceiling(wait.TotalSeconds)} s"
        : $"{(int)Math.Ceiling(wait.TotalMinutes)} min";

    /// <summary>A page of ours; anything else is the board.</summary>
    public static string ThenOf(string? then) => RedirectHttpResult.IsLocalUrl(then) && !then!.StartsWith('~') ? then : "/";

    private static Page<SignInPage> SignIn(Lookout lookout, string name, string then, IReadOnlyList<Sentence> faults, int status = StatusCodes.Status200OK) => new(
        status,
        (nameof(SignInPage.Shop), ShopOf(lookout)),
        (nameof(SignInPage.Name), name),
        (nameof(SignInPage.Then), then),
        (nameof(SignInPage.Faults), faults));

    private static Page<SetUpPage> SetUp(Lookout lookout, string name, IReadOnlyList<Sentence> faults, int status = StatusCodes.Status200OK) => new(
        status, (nameof(SetUpPage.Shop), ShopOf(lookout)), (nameof(SetUpPage.Name), name), (nameof(SetUpPage.Faults), faults));

    public static string ShopOf(Lookout lookout) => lookout.Now()?.Shop.Plan.Shop ?? "CureWatch";
}
