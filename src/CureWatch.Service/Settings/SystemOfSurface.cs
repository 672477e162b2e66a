using System.Collections.Immutable;
using CureWatch.Curing;
using CureWatch.Products;

namespace CureWatch.Service.Settings;

/// <summary>What goes on a surface as people write it: one product with its layers, or a system of several in order.</summary>
internal static class SystemOfSurface
{
    /// <summary>The keys that name one product.</summary>
    private static readonly string[] OneProduct = ["product", "revision", "layers"];

    /// <returns>The products in order; none where a fault keeps one from being read.</returns>
    public static ImmutableArray<ProductLayers> Read(JsonCursor surface, Catalogue catalogue)
    {
        JsonCursor system = surface["system"];
        if (system.IsAbsent)
        {
            if (surface.IsObject && surface["product"].IsAbsent)
            {
                surface["product"].Refuse("the key product, or a system of several");
            }

            return Part(surface, catalogue) is { } only ? [only] : [];
        }

        if (OneProduct.Any(k => !surface[k].IsAbsent))
        {
            system.Refuse("a system instead of product, revision and layers, not with them");
        }

        ProductLayers?[] parts = [.. system.Items(1, SurfacesOfJob.MostLayers).Select(p => PartOfSystem(p, catalogue))];
        int layers = parts.Sum(p => p?.Layers ?? 0);
        if (layers > SurfacesOfJob.MostLayers)
        {
            system.Refuse($"{layers}", $"at most {SurfacesOfJob.MostLayers} layers in all");
        }

        return parts.Contains(null) ? [] : [.. parts.OfType<ProductLayers>()];
    }

    private static ProductLayers? PartOfSystem(JsonCursor part, Catalogue catalogue)
    {
        _ = part.Keys(["product"], "revision", "layers");
        return Part(part, catalogue);
    }

    private static ProductLayers? Part(JsonCursor place, Catalogue catalogue)
    {
        ProductSheet? sheet = Sheet(place, catalogue);
        int layers = place["layers"].Integer(1, SurfacesOfJob.MostLayers) ?? 1;
        return sheet is null ? null : new ProductLayers(sheet.Product, sheet.Revision, layers);
    }

    /// <summary>The sheet that is named; the newest revision where none is.</summary>
    private static ProductSheet? Sheet(JsonCursor place, Catalogue catalogue)
    {
        string known = string.Join(", ", catalogue.Sheets.Select(s => s.Product).Distinct());
        string? product = place["product"].String(p => catalogue.Newest(p) is not null, $"a product with a sheet: {known}");
        int? revision = place["revision"].Integer(1, ProductFile.HighestRevision);
        if (product is null || revision is null)
        {
            return product is null ? null : catalogue.Newest(product);
        }

        ProductSheet? sheet = catalogue.Find(product, revision.Value);
        if (sheet is null)
        {
            string revisions = string.Join(", ", catalogue.Sheets.Where(s => s.Product == product).Select(s => s.Revision));
            place["revision"].Refuse($"a revision of {product} with a sheet: {revisions}");
        }

        return sheet;
    }
}
