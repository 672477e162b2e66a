using CureWatch.Service.Api;
using CureWatch.Service.Charts;
using CureWatch.Service.People;
using CureWatch.Words;

namespace CureWatch.Service.Board;

/// <summary>How a screen without a keyboard is let in: it shows a picture, and the manager's phone says yes to it.</summary>
internal static class PairPages
{
    private const string Path = "/pair";

    public static void Map(IEndpointRouteBuilder app)
    {
        app.MapGet(Path, AskAsync).ExcludeFromDescription().LetsEverybody();
        app.MapGet($"{Path}/{{code}}", (string code, Pairing pairing, Lookout lookout) => LetIn(pairing.OfCode(code), lookout, [], RefusedForm.None))
            .ExcludeFromDescription().LetsManagers();
        app.MapPost($"{Path}/{{code}}", LetInAsync).ExcludeFromDescription().LetsManagers();
    }

    /// <summary>The screen looks again every few seconds; once it was let in, it gets its cookie here, and never again.</summary>
    private static async Task<IResult> AskAsync(HttpContext context, Pairing pairing, Lookout lookout)
    {
        WaitingScreen? screen = pairing.OfSecret(BrowserCookies.ScreenOf(context)) ?? pairing.Ask(SignInPages.AddressOf(context));
        if (screen is null)
        {
            return BoardEndpoints.Plain(StatusCodes.Status429TooManyRequests, $"Not now", $"Too many screens ask to be let in. Try again in ten minutes.");
        }

        if (screen.LetInAs is { } signedIn)
        {
            pairing.Done(screen);
            BrowserCookies.ForgetScreen(context);
            await BrowserCookies.SignInAsync(context, signedIn);
            return BoardForms.SeeOther(context, "/wall");
        }

        BrowserCookies.KeepScreen(context, screen);
        string link = new Uri(BoardAddresses.Printed(context.Request), $"{Path}/{screen.Code}").AbsoluteUri;
        return new Page<PairPage>(
            StatusCodes.Status200OK,
            (nameof(PairPage.Shop), SignInPages.ShopOf(lookout)),
            (nameof(PairPage.Number), screen.Number),
            (nameof(PairPage.Link), link),
            (nameof(PairPage.Picture), SquareCode.Of(link)));
    }

    private static async Task<IResult> LetInAsync(
        string code, HttpContext context, Pairing pairing, SignInDesk desk, Staff staff, Visitor visitor, Lookout lookout, ILogger<Staff> log)
    {
        if (await BoardForms.FormAsync(context) is not { } form)
        {
            return BoardForms.NoForm();
        }

        string name = form["name"].ToString().Trim();
        WaitingScreen? screen = pairing.OfCode(code);
        if (screen is null || screen.LetInAs is not null || Names.Lack(name) is not null)
        {
            return LetIn(screen, lookout, Names.Lack(name) is { } lack ? [lack] : [], RefusedForm.Of("", form));
        }

        SignedIn signedIn = desk.SignIn(name, Role.Screen, screen.From);
        if (!pairing.TryLetIn(screen, signedIn))
        {
            staff.Change(list => list.SignedOut(signedIn.Id)); // pressed twice: the first counts
            return BoardForms.SeeOther(context, "/people");
        }

        People.Log.StaffChanged(log, visitor.Name, $"the screen {name} is let in");
        return BoardForms.SeeOther(context, "/people");
    }

    private static IResult LetIn(WaitingScreen? screen, Lookout lookout, IReadOnlyList<Sentence> faults, RefusedForm refused) => screen is null or { LetInAs: not null }
        ? BoardEndpoints.Plain(StatusCodes.Status404NotFound, $"No screen waits with that code", $"Each picture is good once, for ten minutes. Scan the one it shows now.")
        : new Page<LetInPage>(
            faults.Count == 0 ? StatusCodes.Status200OK : StatusCodes.Status400BadRequest,
            (nameof(LetInPage.Shop), SignInPages.ShopOf(lookout)),
            (nameof(LetInPage.Code), screen.Code),
            (nameof(LetInPage.Number), screen.Number),
            (nameof(LetInPage.From), screen.From),
            (nameof(LetInPage.Faults), faults),
            (nameof(LetInPage.Refused), refused));
}
