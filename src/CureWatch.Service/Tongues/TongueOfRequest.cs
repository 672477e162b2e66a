using CureWatch.Service.People;
using Microsoft.AspNetCore.Http.Headers;
using Microsoft.Net.Http.Headers;

namespace CureWatch.Service.Tongues;

/// <summary>Finds how whoever sent a request is spoken to: as they chose, else as this browser was told, else as it asks for, else in English and °C.</summary>
internal static class TongueOfRequest
{
    public const string FahrenheitSign = "F";

    private const string Cookie = "curewatch-tongue";
    private const char Between = '.';
    private const int MostAskedFor = 20;

    public static Tongue Of(HttpContext? context)
    {
        if (context is null)
        {
            return Tongue.Plain;
        }

        TongueChoice choice = ChosenBy(context);
        return new Tongue(Language.Find(choice.Language) ?? AskedFor(context.Request.GetTypedHeaders()) ?? Language.English, choice.Degrees == FahrenheitSign);
    }

    /// <summary>What was chosen by the person who is signed in, and else in this browser.</summary>
    public static TongueChoice ChosenBy(HttpContext context) => (PersonOf(context)?.Tongue ?? TongueChoice.None).Else(InBrowser(context));

    /// <summary>Keeps a choice in this browser, and with the person who is signed in.</summary>
    /// <exception cref="IOException">It could not be kept with the person.</exception>
    public static void Keep(HttpContext context, TongueChoice choice)
    {
        TongueChoice kept = choice.Else(ChosenBy(context));
        if (PersonOf(context) is { } person && person.Tongue != kept)
        {
            context.RequestServices.GetRequiredService<Staff>().Change(list => list.Spoken(person.Name, kept));
        }

        context.Response.Cookies.Append(CookiesByScheme.NameOf(context, Cookie), $"{kept.Language}{Between}{kept.Degrees}", new CookieOptions
        {
            HttpOnly = true,
            SameSite = Microsoft.AspNetCore.Http.SameSiteMode.Lax, // a page reached by a link from elsewhere speaks as ever
            Secure = context.Request.IsHttps,
            MaxAge = SignInDesk.AsLongAsACookie,
            IsEssential = true,
        });
    }

    private static Person? PersonOf(HttpContext context) =>
        Visitor.Of(context).SignedIn is { Role: not Role.Screen } signedIn ? context.RequestServices.GetService<Staff>()?.List.Find(signedIn.Name) : null;

    private static TongueChoice InBrowser(HttpContext context) =>
        context.Request.Cookies[CookiesByScheme.NameOf(context, Cookie)]?.Split(Between) is [var language, var degrees]
            ? new TongueChoice(language.Length > 0 ? language : null, degrees.Length > 0 ? degrees : null)
            : TongueChoice.None;

    /// <summary>The language a browser would like best of those it can have; null where it has no wish that can be met.</summary>
    private static Language? AskedFor(RequestHeaders headers) => headers.AcceptLanguage.Take(MostAskedFor)
        .Where(a => a.Quality is not 0).OrderByDescending(a => a, StringWithQualityHeaderValueComparer.QualityComparer)
        .Select(a => Language.Find(a.Value.Value)).FirstOrDefault(l => l is not null);
}
