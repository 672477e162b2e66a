using CureWatch.Bays;
using CureWatch.Planning;
using CureWatch.Reports;
using CureWatch.Service.Documents;
using CureWatch.Service.People;
using CureWatch.Service.Pump;

namespace CureWatch.Service.Api;

/// <summary>The day plan: bays and cars on a time line, other work that is planned, who would harm whom, and passes.</summary>
internal static class PlanEndpoints
{
    private const int MostOfWork = 16 * 1024;

    public static void Map(RouteGroupBuilder api)
    {
        api.MapGet("/plan", All).LetsScreens().WithSummary("When each bay frees, whether what is planned next fits, and who would harm whom")
            .Gives("plan", "The plan, a week ahead.");
        api.MapGet("/bays/{bay}/plan", Bay).LetsScreens().WithSummary("One bay of the day plan")
            .Gives("bay-plan", "The bay's plan.")
            .Refuses(StatusCodes.Status404NotFound, "No such bay.");
        api.MapPost("/plan/work", Add).LetsTechnicians().WithSummary("Plans work other than coating; the same again, with its id, changes nothing")
            .Gives("planned-work", "It is planned; Location names it.", StatusCodes.Status201Created)
            .Gives("planned-work", "The same was planned before.")
            .RefusesWrites("work-to-plan");
        api.MapGet("/plan/work/{id}", Work).LetsScreens().WithSummary("Planned work").Gives("planned-work", "The work.")
            .Refuses(StatusCodes.Status404NotFound, "No such work.");
        api.MapPut("/plan/work/{id}", Put).LetsTechnicians().WithSummary("Plans work, or plans it otherwise")
            .Gives("planned-work", "It is planned so.")
            .RefusesWrites("work-to-plan");
        api.MapDelete("/plan/work/{id}", Drop).LetsTechnicians().WithSummary("Drops planned work; with application/json, empty or saying who does and why")
            .WithMetadata(new Gives(StatusCodes.Status204NoContent, null, "It is planned no more."))
            .RefusesWrites("work-to-drop")
            .Refuses(StatusCodes.Status404NotFound, "No such work.");
        api.MapPut("/jobs/{job}/visit", Visit).LetsTechnicians().WithSummary("Plans otherwise when a car comes and is begun")
            .Gives("job", "It is planned so.")
            .RefusesWrites("visit").RefusesUnknownJob();
        api.MapDelete("/jobs/{job}/visit", Cancel).LetsTechnicians().WithSummary("Tells that a car does not come: its job is closed, and its id not given again")
            .WithMetadata(new Gives(StatusCodes.Status204NoContent, null, "It is expected no more."))
            .RefusesWrites("work-to-drop").RefusesUnknownJob()
            .Refuses(StatusCodes.Status409Conflict, "The car is here: it leaves by its handover.");
        api.MapGet("/jobs/{job}/passes", Passes).LetsScreens().WithSummary("How the next layers are worked in passes, by one person or two, in the present climate")
            .Gives("passes", "The passes.")
            .Asks("people", Ask.Whole, "1 or 2; as the shop's habits say where left out.")
            .Refuses(StatusCodes.Status400BadRequest, "A parameter cannot be used; 'faults' names every fault.")
            .RefusesUnknownJob();
    }

    private static IResult All(Lookout lookout) => lookout.Now() is not { } look
        ? Problem.NoShopYet()
        : JsonAnswer.Object(json => new PlanJson(json, new PlanWords(look.DayPlan), namesPeople: true).Write());

    private static IResult Bay(string bay, Lookout lookout) => lookout.Now() is not { } look ? Problem.NoShopYet()
        : look.DayPlan.Bays.FirstOrDefault(b => b.Bay == bay) is not { } day ? Problem.Of(StatusCodes.Status404NotFound, $"No bay '{bay}'.")
        : JsonAnswer.Object(json =>
        {
            json.WriteInstant("at", look.At);
            new PlanJson(json, new PlanWords(look.DayPlan), namesPeople: true).Write(day);
        });

    private static IResult Work(string id, Lookout lookout) => Told(id, lookout, StatusCodes.Status200OK);

    private static IResult Told(string id, Lookout lookout, int status) => lookout.Now() is not { } look ? Problem.NoShopYet()
        : look.Shop.Planned.FirstOrDefault(w => w.Id == id) is not { } work ? Problem.Of(StatusCodes.Status404NotFound, $"No work '{id}' is planned.")
        : JsonAnswer.Object(json => PlanJson.WriteWork(json, work, namesPeople: true), status);

    private static async Task<IResult> Add(HttpContext context, Inbox inbox, Lookout lookout) =>
        await AskAsync(PlanVerb.Add, null, context, inbox, lookout, (id, isRepeated) =>
        {
            context.Response.Headers.Location = $"/api/v1/plan/work/{id}";
            return Told(id, lookout, isRepeated ? StatusCodes.Status200OK : StatusCodes.Status201Created);
        });

    private static async Task<IResult> Put(string id, HttpContext context, Inbox inbox, Lookout lookout) => Settings.Ids.Allows(id)
        ? await AskAsync(PlanVerb.Put, id, context, inbox, lookout, (_, _) => Work(id, lookout))
        : Problem.Of(StatusCodes.Status400BadRequest, $"An id is {Settings.Ids.Allowed}.");

    private static async Task<IResult> Drop(string id, HttpContext context, Inbox inbox, Lookout lookout) =>
        lookout.Now() is { } look && look.Shop.Planned.All(w => w.Id != id)
            ? Problem.Of(StatusCodes.Status404NotFound, $"No work '{id}' is planned.")
            : await AskAsync(PlanVerb.Drop, id, context, inbox, lookout, (_, _) => Results.NoContent());

    private static async Task<IResult> Visit(string job, HttpContext context, Inbox inbox, Lookout lookout) =>
        await AskAsync(PlanVerb.Visit, job, context, inbox, lookout, (_, _) => JobEndpoints.About(
            job, lookout, (look, state) => JsonAnswer.Object(json => CarJson.WriteBrief(json, look, state))));

    private static async Task<IResult> Cancel(string job, HttpContext context, Inbox inbox, Lookout lookout) =>
        await AskAsync(PlanVerb.Cancel, job, context, inbox, lookout, (_, _) => Results.NoContent());

    private static async Task<IResult> AskAsync(
        PlanVerb verb, string? id, HttpContext context, Inbox inbox, Lookout lookout, Func<string, bool, IResult> yes)
    {
        if (!OriginRule.IsJson(context.Request))
        {
            return JobWrites.NoJson();
        }

        if (lookout.Now() is null)
        {
            return Problem.NoShopYet();
        }

        ReadOnlyMemory<byte> body = await Body.ReadAsync(context, MostOfWork);
        body = verb is PlanVerb.Drop or PlanVerb.Cancel && body.IsEmpty ? "{}"u8.ToArray() : body;
        Answer answer = await inbox.AskAsync(new Arrival.Planned(verb, "plan", id, Signature.On(body, context)), context.RequestAborted);
        string about = (answer as Answer.Stored)?.Job ?? (answer as Answer.Repeated)?.Job ?? "";
        return Answers.Over(answer, isRepeated => yes(about, isRepeated));
    }

    private static IResult Passes(string job, HttpRequest request, Lookout lookout) => JobEndpoints.About(job, lookout, (look, state) =>
    {
        var asked = new Parameters(request, "people");
        int? people = asked.Whole("people", 1, SectionPace.MostPeople);
        StartReport start = look.StartOf(state);
        return asked.Problem ?? JsonAnswer.Object(json => PassJson.Write(
            json,
            PassReport.Of(look.Shop, start, people),
            start.Decision.Answers.Select(a => a.Evidence.ClimateAhead).Distinct(),
            Cautions.BesideStart(start.Decision)));
    });
}
