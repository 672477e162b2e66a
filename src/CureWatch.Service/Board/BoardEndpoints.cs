using CureWatch.Service.Api;
using CureWatch.Service.Backups;
using CureWatch.Service.People;
using CureWatch.Words;

namespace CureWatch.Service.Board;

/// <summary>The pages that show.</summary>
internal static class BoardEndpoints
{
    public static void Map(IEndpointRouteBuilder app)
    {
        app.MapGet("/", (Lookout lookout, BackupHealth backup) => With(lookout, look => new SharedPage<BoardPage>(
            look, () => new Page<BoardPage>(StatusCodes.Status200OK, (nameof(BoardPage.View), BoardViews.Of(look, backup)))))).ExcludeFromDescription().LetsScreens();
        app.MapGet("/wall", (Lookout lookout, BackupHealth backup, HttpRequest request) => With(lookout, look => Wall(look, backup, null, request))).ExcludeFromDescription().LetsScreens();
        app.MapGet("/wall/{bay}", (string bay, Lookout lookout, BackupHealth backup, HttpRequest request) => With(lookout, look => Wall(look, backup, bay, request)))
            .ExcludeFromDescription().LetsScreens();
        app.MapGet("/start", (Lookout lookout, string? bay) => With(lookout, look => Start(StartForms.Blank(look, bay ?? ""))))
            .ExcludeFromDescription().LetsScreens();
        app.MapGet("/promises", (Lookout lookout) => With(lookout, look => new Page<PromisesPage>(
            StatusCodes.Status200OK, (nameof(PromisesPage.View), PromiseViews.Of(look))))).ExcludeFromDescription().LetsScreens();
        app.MapGet("/jobs/{job}", (string job, Lookout lookout) => With(lookout, look => Job(look, job, []))).ExcludeFromDescription().LetsScreens();
    }

    public static IResult With(Lookout lookout, Func<Look, IResult> page) => lookout.Now() is { } look
        ? page(look)
        : Plain(StatusCodes.Status503ServiceUnavailable, $"Not yet", $"The shop's settings have not been taken in yet. Reload in a moment.");

    public static IResult Start(StartView view) => new Page<StartPage>(
        view.Faults.Count == 0 ? StatusCodes.Status200OK : StatusCodes.Status400BadRequest, (nameof(StartPage.View), view));

    public static IResult Job(
        Look look, string id, IReadOnlyList<Sentence> faults, int faultStatus = StatusCodes.Status400BadRequest, RefusedForm? refused = null)
    {
        if (look.Shop.Find(id) is not { } job)
        {
            return Plain(StatusCodes.Status404NotFound, $"No such car", $"There is no job '{id}' here, or its car left days ago.");
        }

        var clock = new ShopClock(look.Shop.Plan.Hours.Zone, look.At);
        return new Page<JobPage>(
            faults.Count == 0 ? StatusCodes.Status200OK : faultStatus,
            (nameof(JobPage.Shop), look.Shop.Plan.Shop),
            (nameof(JobPage.Zone), clock.Zone.Id),
            (nameof(JobPage.Now), clock.Of(look.At)),
            (nameof(JobPage.Name), job.Job.Car ?? job.Job.Id),
            (nameof(JobPage.Car), job.LeftAt is null ? new CarViews(look, clock).Of(job) : null),
            (nameof(JobPage.Photos), PhotoViews.Of(look, clock, id)),
            (nameof(JobPage.Troubles), TroubleViews.Of(look)),
            (nameof(JobPage.Faults), faults),
            (nameof(JobPage.Refused), refused ?? RefusedForm.None));
    }

    private static IResult Wall(Look look, BackupHealth backup, string? bay, HttpRequest request)
    {
        bool isThere = bay is null || look.Shop.Plan.Bays.Any(b => b.Bay == bay);
        return !isThere
            ? Plain(StatusCodes.Status404NotFound, $"No such bay", $"No bay '{bay}' is set up here.")
            : new SharedPage<WallPage>(look, () => new Page<WallPage>(
                StatusCodes.Status200OK,
                (nameof(WallPage.View), WallViews.Of(look, BoardViews.Of(look, backup), bay)),
                (nameof(WallPage.Here), request.Path.Value),
                (nameof(WallPage.IsPlain), request.Query.ContainsKey("plain"))));
    }

    public static IResult Plain(int status, Sentence title, Sentence text) =>
        new Page<PlainPage>(status, (nameof(PlainPage.Title), title), (nameof(PlainPage.Text), text));
}
