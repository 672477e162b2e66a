using CureWatch.Products;
using CureWatch.Service.Documents;
using CureWatch.Service.People;
using CureWatch.Service.Pump;
using CureWatch.Service.Settings;

namespace CureWatch.Service.Api;

/// <summary>What concerns the whole shop: its products and its warnings.</summary>
internal static class ShopEndpoints
{
    public static void Map(RouteGroupBuilder api)
    {
        api.MapGet("/products", Products).LetsScreens().WithSummary("Every product sheet").Gives("products", "The sheets.");
        api.MapGet("/warnings", Open).LetsScreens().WithSummary("The warnings that stand, the most urgent first, and what troubles the service itself")
            .Gives("warnings", "The warnings.");
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
            json.WriteTexts("stages", sheet.Stages.Select(s => WireName<Stage>.Of(s.Stage)));
            json.WriteArray("fit", SheetFit.Of(sheet).Stages.Select(FitBasis.Of), basis =>
            {
                json.WriteString("stage", WireName<Stage>.Of(basis.Stage));
                FitBasisJson.WriteKeys(json, basis);
            });
            json.WriteTexts("cautions", sheet.Cautions);
        }));
    }

    private static IResult Open(Lookout lookout) => lookout.Now() is not { } look
        ? Problem.NoShopYet()
        : JsonAnswer.Object(json =>
        {
            json.WriteInstant("at", look.At);
            json.WriteArray("warnings", look.OpenWarnings, w => WarningJson.Write(json, w.Number, w.Warning));
            TroubleJson.WriteAll(json, look.Troubles);
        });
}
