using CureWatch.Bays;
using CureWatch.Panels;
using CureWatch.Products;
using CureWatch.Service.Documents;
using CureWatch.Service.People;

namespace CureWatch.Service.Api;

/// <summary>Can I start? Of a car, of one of its surfaces, and of a bay before there is a car.</summary>
internal static class StartEndpoints
{
    public static void Map(RouteGroupBuilder api)
    {
        api.MapGet("/jobs/{job}/start", Job).LetsScreens().WithSummary("Whether a car can be coated now, with every reason")
            .Gives("start", "The answer.")
            .Asks("surface", Ask.Word, "The only surface asked about.")
            .Refuses(StatusCodes.Status400BadRequest, "A parameter cannot be used; 'faults' names every fault.")
            .RefusesUnknownJob();
        api.MapGet("/bays/{bay}/start", Bay).LetsScreens().WithSummary("Whether a product can go on in a bay now, before there is a car")
            .Gives("start", "The answer, for one layer.")
            .Asks("product", Ask.Word, "The product's id; always needed.")
            .Asks("revision", Ask.Whole, "The sheet's revision; the newest where left out.")
            .Asks("material", Ask.Word, "What it goes on; always needed.")
            .Asks("place", Ask.Word, "Where that is; outside where left out.")
            .Refuses(StatusCodes.Status400BadRequest, "A parameter is missing or cannot be used; 'faults' names every fault.")
            .Refuses(StatusCodes.Status404NotFound, "No such bay.");
    }

    private static IResult Job(string job, HttpRequest request, Lookout lookout) => JobEndpoints.About(job, lookout, (look, state) =>
    {
        var asked = new Parameters(request, "surface");
        string? surface = asked.OneOf("surface", state.Job.Surfaces.Select(s => s.Id));
        return asked.Problem ?? Answer(surface is null ? look.StartOf(state) : StartReport.Of(look.Shop, job, surface));
    });

    private static IResult Bay(string bay, HttpRequest request, Lookout lookout)
    {
        if (lookout.Now() is not { } look)
        {
            return Problem.NoShopYet();
        }

        if (!look.Shop.Plan.Bays.Any(b => b.Bay == bay))
        {
            return Problem.Of(StatusCodes.Status404NotFound, $"No bay '{bay}'.");
        }

        var asked = new Parameters(request, "product", "revision", "material", "place");
        Catalogue sheets = look.Register.Settings.Catalogue;
        string? product = asked.OneOf("product", sheets.Sheets.Select(s => s.Product).Distinct(), isNeeded: true);
        int? revision = asked.Whole("revision", 1, int.MaxValue);
        Material? material = asked.OneOf<Material>("material", isNeeded: true);
        Place place = asked.OneOf<Place>("place", isNeeded: false) ?? Place.Outside;
        ProductSheet? sheet = product is null ? null : revision is { } r ? sheets.Find(product, r) : sheets.Newest(product);
        if (product is not null && sheet is null)
        {
            asked.Refuse("revision", $"a revision of {product} with a sheet: {string.Join(", ", sheets.Sheets.Where(s => s.Product == product).Select(s => s.Revision))}");
        }

        return asked.Problem ?? Answer(StartReport.OfBay(look.Shop, bay, sheet!, material!.Value, place));
    }

    private static JsonAnswer Answer(StartReport report) => JsonAnswer.Object(json => StartJson.Write(json, report));
}
