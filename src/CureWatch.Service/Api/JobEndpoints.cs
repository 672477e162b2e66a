using CureWatch.Bays;
using CureWatch.Service.Documents;
using CureWatch.Service.People;
using CureWatch.Service.Pump;

namespace CureWatch.Service.Api;

/// <summary>The cars: how each stands, and what people tell of it.</summary>
internal static class JobEndpoints
{
    public static void Map(RouteGroupBuilder api)
    {
        api.MapGet("/jobs", All).LetsScreens().WithSummary("The jobs of the cars that are here, or left in the last two days").Gives("jobs", "The jobs.");
        api.MapGet("/jobs/{job}", One).LetsScreens().WithSummary("How a job stands now, in the shape of replay --json")
            .Gives("replay", "The job.").RefusesUnknownJob();
        api.MapGet("/jobs/{job}/windows", Windows).LetsScreens().WithSummary("The windows of every coat").Gives("windows", "The windows.").RefusesUnknownJob();
        api.MapGet("/jobs/{job}/taps", Taps).LetsScreens().WithSummary("What people told, in the order they told it").Gives("taps", "The taps.").RefusesUnknownJob();
        api.MapGet("/jobs/{job}/handover", Handover).LetsScreens().WithSummary("Whether the car may leave, with every hold")
            .Gives("handover", "The ruling.").RefusesUnknownJob();
        api.MapPost("/jobs", Start).LetsTechnicians().WithSummary("Starts a job, in the shape of a job file")
            .Gives("job", "The job was started; Location names it.", StatusCodes.Status201Created)
            .Gives("job", "The same job was started before, word for word.")
            .RefusesWrites("job-file");
        JobWrites.Map(api);
        NextEndpoints.Map(api);
        PromiseEndpoints.Map(api);
    }

    private static IResult All(Lookout lookout) => lookout.Now() is not { } look
        ? Problem.NoShopYet()
        : JsonAnswer.Object(json =>
        {
            json.WriteInstant("at", look.At);
            json.WriteArray("jobs", look.Shop.JobsInOrder, j => CarJson.WriteBrief(json, look, j));
        });

    private static IResult One(string job, Lookout lookout) => About(job, lookout, (look, state) =>
        new JsonAnswer(StatusCodes.Status200OK, json => ReplayJson.Write(json, look.ReportOf(state), look.Shop.Tally)));

    private static IResult Windows(string job, Lookout lookout) => About(job, lookout, (look, state) =>
        JsonAnswer.Object(json => WindowsJson.Write(json, look.ReportOf(state))));

    private static IResult Taps(string job, Lookout lookout) => About(job, lookout, (look, state) => JsonAnswer.Object(json =>
    {
        json.WriteString("job", state.Job.Id);
        json.WriteArray("taps", state.Told, t => CarJson.WriteTap(json, t));
    }));

    public static IResult Handover(string job, Lookout lookout) => About(job, lookout, (look, state) =>
        JsonAnswer.Object(json => CarJson.WriteHandover(json, look.ReportOf(state), look.Register.Jobs.GetValueOrDefault(job))));

    private static async Task<IResult> Start(HttpContext context, Inbox inbox, Lookout lookout)
    {
        if (!OriginRule.IsJson(context.Request))
        {
            return JobWrites.NoJson();
        }

        Answer answer = await inbox.AskAsync(new Arrival.JobStart("job", await Body.ReadAsync(context)), context.RequestAborted);
        string? job = (answer as Answer.Stored)?.Job ?? (answer as Answer.Repeated)?.Job;
        return Answers.Over(answer, isRepeated =>
        {
            context.Response.Headers.Location = $"/api/v1/jobs/{job}";
            int status = isRepeated ? StatusCodes.Status200OK : StatusCodes.Status201Created;
            return About(job!, lookout, (look, state) => JsonAnswer.Object(json => CarJson.WriteBrief(json, look, state), status));
        });
    }

    public static IResult About(string job, Lookout lookout, Func<Look, JobState, IResult> answer) => lookout.Now() is not { } look
        ? Problem.NoShopYet()
        : look.Shop.Find(job) is { } state ? answer(look, state)
        : Problem.Of(StatusCodes.Status404NotFound, look.Register.Jobs.ContainsKey(job)
            ? $"The job '{job}' is closed: its record is at /api/v1/handovers/{job}."
            : $"No job '{job}'.");
}
