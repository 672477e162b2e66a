using CureWatch.Bays;
using CureWatch.Reports;
using CureWatch.Service.Documents;
using CureWatch.Service.People;

namespace CureWatch.Service.Api;

/// <summary>What customers were told: whether it is made, what would make it, and what would follow if something were otherwise.</summary>
internal static class PromiseEndpoints
{
    private const int UsualPercent = 90;
    private const int MostOfQuestion = 16 * 1024;

    public static void Map(RouteGroupBuilder api)
    {
        api.MapGet("/promises", All).LetsScreens().WithSummary("The promises of all cars that are here, the one most at risk first").Gives("promises", "The promises.");
        api.MapGet("/jobs/{job}/promise", One).LetsScreens()
            .WithSummary("The chance that a car is ready when its customer was told, what decides it, and the least that would make it")
            .Gives("promise", "How it stands.")
            .Asks("chance", Ask.Whole, $"The chance that what would make it is to reach, in percent: 1 to 99, {UsualPercent} where left out.")
            .Refuses(StatusCodes.Status400BadRequest, "A parameter cannot be used; 'faults' names every fault.")
            .Refuses(StatusCodes.Status409Conflict, "The car has left.")
            .RefusesUnknownJob();
        api.MapPost("/jobs/{job}/what-if", Suppose).LetsTechnicians().WithSummary("What would follow if something were otherwise; nothing is changed or recorded by it")
            .Gives("what-if", "The windows, the handover and the promise as they would be.")
            .Refuses(StatusCodes.Status409Conflict, "The car has left.")
            .RefusesWrites("what-if-question").RefusesUnknownJob();
    }

    private static IResult All(Lookout lookout) => lookout.Now() is not { } look
        ? Problem.NoShopYet()
        : JsonAnswer.Object(json =>
        {
            json.WriteInstant("at", look.At);
            json.WriteArray("promises", PromiseRanking.Of(look.Here.Select(j => look.ReportOf(j).Promise!)), p =>
            {
                json.WriteString("job", p.Job);
                PromiseJson.WriteBody(json, p);
            });
        });

    private static IResult One(string job, HttpRequest request, Lookout lookout) => JobEndpoints.About(job, lookout, (look, state) =>
    {
        var asked = new Parameters(request, "chance");
        int? percent = asked.Whole("chance", 1, 99);
        return asked.Problem ?? (state.LeftAt is not null ? Left(job)
            : JsonAnswer.Object(json => PromiseJson.Write(
                json, percent is null ? look.ReportOf(state).Promise! : PromiseReport.Of(look.Shop, job, percent.Value / 100.0))));
    });

    private static async Task<IResult> Suppose(string job, HttpContext context, Lookout lookout)
    {
        if (!OriginRule.IsJson(context.Request))
        {
            return JobWrites.NoJson();
        }

        ReadOnlyMemory<byte> body = await Body.ReadAsync(context, MostOfQuestion);
        return JobEndpoints.About(job, lookout, (look, state) =>
        {
            var faults = new Settings.Faults();
            Hypothesis? hypothesis = WhatIfQuestion.Read("what-if", body, look.Shop, state, faults);
            return state.LeftAt is not null ? Left(job)
                : hypothesis is null || faults.Count > 0 ? Problem.Faulty([.. faults.All])
                : JsonAnswer.Object(json => WhatIfJson.Write(json, WhatIf.Of(look.Shop, job, hypothesis)));
        });
    }

    private static IResult Left(string job) => Problem.Of(StatusCodes.Status409Conflict, $"The car of '{job}' has left: its promise is past.");
}
