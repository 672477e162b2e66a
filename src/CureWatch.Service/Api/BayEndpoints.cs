using System.Text.Json;
using CureWatch.Reports;
using CureWatch.Service.Documents;
using CureWatch.Service.People;

namespace CureWatch.Service.Api;

/// <summary>The bays with their climate, their warnings and the cars in them.</summary>
internal static class BayEndpoints
{
    public static void Map(RouteGroupBuilder api)
    {
        api.MapGet("/bays", All).LetsScreens().WithSummary("Every bay with its live climate").Gives("bays", "The bays.");
        api.MapGet("/bays/{bay}", One).LetsScreens().WithSummary("One bay with its live climate")
            .Gives("bay", "The bay.")
            .Refuses(StatusCodes.Status404NotFound, "No such bay.");
        api.MapGet("/bays/{bay}/course", Course).LetsScreens().WithSummary("How the climate of a bay went, and how it is expected to go")
            .Gives("course", "The course.")
            .Refuses(StatusCodes.Status404NotFound, "No such bay.");
    }

    private static IResult All(Lookout lookout) => lookout.Now() is not { } look
        ? Problem.NoShopYet()
        : JsonAnswer.Object(json =>
        {
            json.WriteInstant("at", look.At);
            json.WriteArray("bays", look.Shop.Plan.Bays, bay => Write(json, look, bay.Bay));
        });

    private static IResult One(string bay, Lookout lookout) => OfBay(bay, lookout, Write);

    private static IResult Course(string bay, Lookout lookout) =>
        OfBay(bay, lookout, (json, look, id) => CourseJson.Write(json, ClimateCourse.Of(look.Shop, id)));

    private static IResult OfBay(string bay, Lookout lookout, Action<Utf8JsonWriter, Look, string> write) => lookout.Now() is not { } look
        ? Problem.NoShopYet()
        : look.Shop.Plan.Bays.Any(b => b.Bay == bay)
            ? JsonAnswer.Object(json => write(json, look, bay))
            : Problem.Of(StatusCodes.Status404NotFound, $"No bay '{bay}'.");

    private static void Write(Utf8JsonWriter json, Look look, string bay)
    {
        BayJson.Write(json, BayReport.Of(look.Shop, bay));
        json.WriteArray(
            "warnings",
            look.OpenWarnings.Where(w => w.Warning.Subject.Bay == bay),
            w => WarningJson.Write(json, w.Number, w.Warning));
        json.WriteArray("jobs", look.Here.Where(j => look.BaysOf(j).Contains(bay)), j => CarJson.WriteBrief(json, look, j));
    }
}
