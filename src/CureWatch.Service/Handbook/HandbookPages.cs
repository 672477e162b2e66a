using CureWatch.Service.Board;
using CureWatch.Service.People;
using CureWatch.Service.Tongues;

namespace CureWatch.Service.Handbook;

/// <summary>
/// The handbook. It is open to whoever reaches the service: how to sign in, to pair a screen and what is dangerous is read by people who are not in yet,
/// and it has nothing of the shop, not even its name.
/// </summary>
internal static class HandbookPages
{
    private const string Path = "/handbook";

    public static WebApplication MapHandbook(this WebApplication app)
    {
        app.MapGet(Path, ContentsOrFound).ExcludeFromDescription().LetsEverybody();
        app.MapGet($"{Path}/{{chapter}}", OnePage).ExcludeFromDescription().LetsEverybody();
        return app;
    }

    public static string AddressOf(string id) => id.Length == 0 ? Path : $"{Path}/{id}";

    private static IResult ContentsOrFound(string? q, Tongue tongue) => q is null
        ? new Page<ContentsPage>(StatusCodes.Status200OK, (nameof(ContentsPage.Text), HandbookText.In(tongue.Language)))
        : new Page<FoundPage>(StatusCodes.Status200OK, (nameof(FoundPage.Typed), q), (nameof(FoundPage.Finding), HandbookText.In(tongue.Language).Search.Find(q)));

    private static IResult OnePage(string chapter, Tongue tongue) => HandbookText.In(tongue.Language).Find(chapter) is { } found
        ? new Page<ChapterPage>(StatusCodes.Status200OK, (nameof(ChapterPage.Text), HandbookText.In(tongue.Language)), (nameof(ChapterPage.Chapter), found))
        : BoardEndpoints.Plain(StatusCodes.Status404NotFound, $"No such page", $"The handbook has no page of that name.");
}
