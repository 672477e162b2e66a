using CureWatch.Products;
using CureWatch.Service.Commands;
using CureWatch.Service.Settings;
using CureWatch.Warnings;

namespace CureWatch.Service.Api;

/// <summary>What concerns the whole shop: its products, its warnings, and what became of the readings.</summary>
internal static class ShopEndpoints
{
    /// <summary>As many as somebody reads. Source (choice).</summary>
    private const int MostPastWarnings = 500;

    public static void Map(RouteGroupBuilder api)
    {
        api.MapGet("/products", Products).WithSummary("Every product sheet").Gives("products", "The sheets.");
        api.MapGet("/warnings", Open).WithSummary("The warnings that stand, the most urgent first").Gives("warnings", "The warnings.");
        api.MapGet("/warnings/past", Past).WithSummary($"The newest {MostPastWarnings} warnings that are over").Gives("warnings", "The warnings.");
        api.MapGet("/readings", Readings).WithSummary("How many readings were believed, and how many refused, by reason and probe")
            .Gives("readings", "The counts.");
    }

    private static IResult Products(Lookout lookout)
    {
        if (lookout.Now() is not { } look)
        {
            return Problem.NoShopYet();
        }

        Catalogue catalogue = look.Register.Settings.Catalogue;
        return JsonAnswer.Object(json => json.WriteArray("products", catalogue.Sheets, sheet =>
        {
            json.WriteString("product", sheet.Product);
            json.WriteNumber("revision", sheet.Revision);
            json.WriteBoolean("newest", catalogue.Newest(sheet.Product) == sheet);
            json.WriteString("name", sheet.Name);
            json.WriteString("kind", WireName<ProductKind>.Of(sheet.Kind));
            json.WriteString("carrier", WireName<Carrier>.Of(sheet.Carrier));
            json.WriteString("source", sheet.Source);
            json.WriteStartArray("stages");
            foreach (SheetStage stage in sheet.Stages)
            {
                json.WriteStringValue(WireName<Stage>.Of(stage.Stage));
            }

            json.WriteEndArray();
            json.WriteStartArray("cautions");
            foreach (string caution in sheet.Cautions)
            {
                json.WriteStringValue(caution);
            }

            json.WriteEndArray();
        }));
    }

    private static IResult Open(Lookout lookout) => lookout.Now() is { } look ? Warnings(look, look.OpenWarnings) : Problem.NoShopYet();

    private static IResult Past(Lookout lookout, IPastWarnings past) =>
        lookout.Now() is { } look ? Warnings(look, past.Newest(MostPastWarnings)) : Problem.NoShopYet();

    private static JsonAnswer Warnings(Look look, IEnumerable<(int Number, Warning Warning)> warnings) => JsonAnswer.Object(json =>
    {
        json.WriteInstant("at", look.At);
        json.WriteArray("warnings", warnings, w => WarningJson.Write(json, w.Number, w.Warning));
    });

    private static IResult Readings(Lookout lookout) => lookout.Now() is not { } look
        ? Problem.NoShopYet()
        : JsonAnswer.Object(json =>
        {
            json.WriteInstant("at", look.At);
            json.WriteNumber("accepted", look.Shop.Tally.Accepted);
            json.WriteArray("refused", look.Register.Refusals, r =>
            {
                json.WriteString("reason", r.Key.Reason);
                json.WriteString("place", r.Key.Place);
                json.WriteNumber("count", r.Value);
            });
        });
}
