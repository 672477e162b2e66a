using CureWatch.Bays;
using CureWatch.Curing;
using CureWatch.Service.Api;
using CureWatch.Service.Backups;
using CureWatch.Service.Board;
using CureWatch.Service.People;
using CureWatch.Service.Tongues;
using CureWatch.Words;

namespace CureWatch.Service.Phone;

/// <summary>The pages that show, on a phone.</summary>
internal static class PhonePages
{
    public static void Map(IEndpointRouteBuilder app)
    {
        app.MapGet("/bay", (Lookout lookout, BackupHealth backup) => BoardEndpoints.With(lookout, look => Bays(look, backup, null)))
            .ExcludeFromDescription().LetsScreens();
        app.MapGet("/bay/{bay}", (string bay, Lookout lookout, BackupHealth backup) => In(bay, lookout, look => Bays(look, backup, bay)))
            .ExcludeFromDescription().LetsScreens();
        app.MapGet("/bay/{bay}/start", (string bay, string? like, Lookout lookout, Tongue tongue) => In(bay, lookout, look => Begin(BeginForms.Blank(look, bay, like, tongue))))
            .ExcludeFromDescription().LetsScreens();
        app.MapGet("/bay/{bay}/jobs/{job}", (string bay, string job, Lookout lookout, BackupHealth backup) => In(bay, lookout, look => Car(look, backup, bay, job, RefusedForm.None)))
            .ExcludeFromDescription().LetsScreens();
        app.MapGet("/bay/{bay}/jobs/{job}/more", (string bay, string job, Lookout lookout) => In(bay, lookout, look => On(look, job, state => More(look, bay, state, RefusedForm.None))))
            .ExcludeFromDescription().LetsScreens();
        app.MapGet("/bay/{bay}/jobs/{job}/told", (string bay, string job, Lookout lookout) => In(bay, lookout, look => On(look, job, state => Told(look, bay, state, RefusedForm.None))))
            .ExcludeFromDescription().LetsScreens();
        app.MapGet("/bay/{bay}/jobs/{job}/card", (string bay, string job, Lookout lookout, HttpRequest request) =>
            In(bay, lookout, look => On(look, job, state => Card(look, bay, state, request)))).ExcludeFromDescription().LetsScreens();
    }

    public static string CarAt(string bay, string job) => $"/bay/{bay}/jobs/{job}";

    public static IResult In(string bay, Lookout lookout, Func<Look, IResult> page) => BoardEndpoints.With(lookout, look =>
        IsSetUp(look, bay)
            ? page(look)
            : NoBay(bay));

    public static bool IsSetUp(Look look, string bay) => look.Shop.Plan.Bays.Any(b => b.Bay == bay);

    public static IResult NoBay(string bay) => BoardEndpoints.Plain(StatusCodes.Status404NotFound, $"No such bay", $"No bay '{bay}' is set up here.");

    public static IResult Begin(BeginView view) => new Page<BeginPage>(
        view.Faults.Count == 0 ? StatusCodes.Status200OK : StatusCodes.Status400BadRequest, (nameof(BeginPage.View), view));

    /// <summary>The page that the form of a tap stands on, with what was filled in and why it was not taken.</summary>
    public static IResult Refused(Look look, BackupHealth backup, string bay, string job, FormAnswer answer, IFormCollection form)
    {
        (string corrected, string panel) = (form["corrects"].ToString(), form["panel"].ToString());
        bool isCorrection = corrected.Length > 0 && form["did"] != "withdrawn";
        RefusedForm refused = RefusedForm.Of(isCorrection ? corrected : panel, form) with
        {
            Faults = answer.Faults,
            DoneAt = new ShopClock(look.Shop.Plan.Hours.Zone, look.At).Of(answer.At),
        };
        return isCorrection ? On(look, job, state => Told(look, bay, state, refused, answer.Status), answer.Status)
            : MorePage.Has(panel) ? On(look, job, state => More(look, bay, state, refused, answer.Status), answer.Status)
            : Car(look, backup, bay, job, refused, answer.Status);
    }

    public static IResult Car(Look look, BackupHealth backup, string bay, string job, RefusedForm refused, int status = StatusCodes.Status200OK) =>
        On(look, job, state => new Page<CarPage>(status, (nameof(CarPage.View), new PhoneViews(look, BoardViews.Of(look, backup)).Of(state, bay, refused))), status);

    private static IResult Bays(Look look, BackupHealth backup, string? bay)
    {
        BoardView board = BoardViews.Of(look, backup);
        var frame = new Frame(board.Shop, board.Zone, board.Now, board.Troubles);
        return bay is null
            ? new Page<BayChoicePage>(StatusCodes.Status200OK, (nameof(BayChoicePage.Frame), frame), (nameof(BayChoicePage.Bays), board.Bays))
            : new Page<BayCarsPage>(StatusCodes.Status200OK, (nameof(BayCarsPage.Frame), frame), (nameof(BayCarsPage.Bay), board.Bays.First(b => b.Bay == bay)));
    }

    /// <param name="look">The shop.</param>
    /// <param name="job">The car's job.</param>
    /// <param name="page">The page of a car that is here.</param>
    /// <param name="leftStatus">What is said of a car that has left: a tap that was refused must not look as if it had been taken.</param>
    private static IResult On(Look look, string job, Func<JobState, IResult> page, int leftStatus = StatusCodes.Status200OK) => look.Shop.Find(job) switch
    {
        null => BoardEndpoints.Plain(StatusCodes.Status404NotFound, $"No such car", $"There is no job '{job}' here, or its car left days ago."),
        { LeftAt: not null } left => BoardEndpoints.Plain(leftStatus, Sentence.Named(left.Job.Car ?? job), $"This car has left."),
        var state => page(state),
    };

    private static Page<MorePage> More(Look look, string bay, JobState state, RefusedForm refused, int status = StatusCodes.Status200OK)
    {
        var clock = new ShopClock(look.Shop.Plan.Hours.Zone, look.At);
        CarView car = new CarViews(look, clock).Of(state);
        return new Page<MorePage>(status, (nameof(MorePage.View), new TellView(
            Frame.Of(look, clock),
            bay,
            car.Job,
            car.Car,
            car.TapNumber,
            car.Surfaces,
            state.Job.Surfaces.Max(s => s.Layers),
            state.Job.Surfaces.Max(s => s.Sections),
            look.ReportOf(state).Next.FirstOrDefault()?.Act.Surface.Id ?? "",
            [.. look.Shop.Plan.Bays.Select(b => b.Bay), Whereabouts.Store, Whereabouts.Outside],
            car.Cautions,
            new ToldViews(clock).LastOf(state),
            refused)));
    }

    private static Page<ToldPage> Told(Look look, string bay, JobState state, RefusedForm refused, int status = StatusCodes.Status200OK)
    {
        var clock = new ShopClock(look.Shop.Plan.Hours.Zone, look.At);
        return new Page<ToldPage>(
            status,
            (nameof(ToldPage.Frame), Frame.Of(look, clock)),
            (nameof(ToldPage.Bay), bay),
            (nameof(ToldPage.Job), state.Job.Id),
            (nameof(ToldPage.Car), state.Job.Car ?? state.Job.Id),
            (nameof(ToldPage.TapNumber), state.Told.Length),
            (nameof(ToldPage.Surfaces), state.Job.Surfaces.Select(s => s.Id).ToArray()),
            (nameof(ToldPage.Layers), state.Job.Surfaces.Max(s => s.Layers)),
            (nameof(ToldPage.Sections), state.Job.Surfaces.Max(s => s.Sections)),
            (nameof(ToldPage.Told), new ToldViews(clock).Of(state).ToArray()),
            (nameof(ToldPage.Refused), refused));
    }

    private static Page<CardPage> Card(Look look, string bay, JobState state, HttpRequest request)
    {
        var address = new Uri(BoardAddresses.Printed(request), CarAt(look.BaysOf(state).FirstOrDefault(bay), state.Job.Id));
        return new Page<CardPage>(StatusCodes.Status200OK, (nameof(CardPage.View), CardViews.Of(look, state, bay, address)));
    }
}
