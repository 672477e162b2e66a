using CureWatch.Bays;
using CureWatch.Service.Documents;
using CureWatch.Service.People;

namespace CureWatch.Service.Api;

/// <summary>When a car that came in is dry enough to be coated.</summary>
internal static class ArrivalEndpoints
{
    public static void Map(RouteGroupBuilder api) =>
        api.MapGet("/jobs/{job}/arrival", Job).LetsScreens().WithSummary("When each surface without a coat is dry enough, the slowest first")
            .Gives("arrival", "The arrival check.")
            .RefusesUnknownJob();

    private static IResult Job(string job, Lookout lookout) => JobEndpoints.About(job, lookout, (look, _) => JsonAnswer.Object(
        json => ArrivalJson.Write(json, ArrivalReport.Of(look.Shop, job))));
}
