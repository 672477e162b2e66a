using System.Text.Json;
using CureWatch.Bays;
using CureWatch.Reports;
using CureWatch.Service.Documents;
using CureWatch.Service.People;

namespace CureWatch.Service.Api;

/// <summary>What to know at lock-up, and in the morning: of the shop, and of each bay.</summary>
internal static class NightEndpoints
{
    public static void Map(RouteGroupBuilder api)
    {
        api.MapGet("/tonight", (Lookout lookout) => OfShop(lookout, (json, look) => NightJson.WriteTonight(json, TonightReport.Of(look.Shop))))
            .LetsScreens().WithSummary("The lock-up summary: what gets through the night, and what helps").Gives("tonight-of-shop", "The summary.");
        api.MapGet("/bays/{bay}/tonight", (string bay, Lookout lookout) => OfBay(bay, lookout, (json, look) => NightJson.WriteTonight(json, TonightReport.Of(look.Shop, bay))))
            .LetsScreens().WithSummary("The lock-up summary of one bay").Gives("tonight", "The summary.")
            .Refuses(StatusCodes.Status404NotFound, "No such bay.");
        api.MapGet("/morning", (Lookout lookout) => OfShop(lookout, (json, look) => NightJson.WriteMorning(json, MorningReport.Of(look.Shop))))
            .LetsScreens().WithSummary("The morning brief: what happened since lock-up, and what to look at first").Gives("morning-of-shop", "The brief.");
        api.MapGet("/bays/{bay}/morning", (string bay, Lookout lookout) => OfBay(bay, lookout, (json, look) => NightJson.WriteMorning(json, MorningReport.Of(look.Shop, bay))))
            .LetsScreens().WithSummary("The morning brief of one bay").Gives("morning", "The brief.")
            .Refuses(StatusCodes.Status404NotFound, "No such bay.");
    }

    private static IResult OfShop(Lookout lookout, Action<Utf8JsonWriter, Look> write) => lookout.Now() is not { } look
        ? Problem.NoShopYet()
        : JsonAnswer.Object(json =>
        {
            json.WriteInstant("at", look.At);
            write(json, look);
        });

    private static IResult OfBay(string bay, Lookout lookout, Action<Utf8JsonWriter, Look> write) =>
        lookout.Now() is { } look && look.Shop.Plan.Bays.All(b => b.Bay != bay)
            ? Problem.Of(StatusCodes.Status404NotFound, $"No bay '{bay}'.")
            : OfShop(lookout, write);
}
