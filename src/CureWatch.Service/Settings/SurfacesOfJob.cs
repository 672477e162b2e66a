using System.Collections.Immutable;
using CureWatch.Curing;
using CureWatch.Panels;
using CureWatch.Products;

namespace CureWatch.Service.Settings;

/// <summary>The surfaces of a job as people write them.</summary>
internal static class SurfacesOfJob
{
    public const int MostLayers = 9;
    public const int MostSections = 99;

    /// <summary>What is allowed where one stands twice.</summary>
    public const string EachOnce = "each surface once";

    /// <summary>Far more than a car has. Source (choice).</summary>
    private const int MostSurfaces = 100;

    /// <summary>
    /// Every layer of every section has clocks of its own: a car of a thousand is a tenth of a second's work at each reading, one of a
    /// million would hold up the whole shop. Source (choice).
    /// </summary>
    public const int MostCoats = 1_000;

    /// <returns>The surfaces; one with a fault may be missing, but its id is put into <paramref name="ids"/>.</returns>
    public static ImmutableArray<Surface> Read(JsonCursor surfaces, Catalogue catalogue, HashSet<string> ids)
    {
        ImmutableArray<Surface> read = [.. surfaces.Items(1, MostSurfaces).Select(s => ReadOne(s, catalogue, ids)).OfType<Surface>()];
        int coats = read.Sum(s => s.Layers * s.Sections);
        if (coats > MostCoats)
        {
            surfaces.Refuse($"{coats}", $"at most {MostCoats} coats in all: the layers of each surface times its sections");
        }

        return read;
    }

    private static Surface? ReadOne(JsonCursor place, Catalogue catalogue, HashSet<string> ids)
    {
        _ = place.Keys(["surface", "material"], "over", "place", "product", "revision", "layers", "system", "sections");
        string? id = place["surface"].Id();
        if (id is not null && !ids.Add(id))
        {
            place["surface"].Refuse(EachOnce);
        }

        Material? material = place["material"].OneOf<Material>();
        Material? over = place["over"].OneOf<Material>();
        if ((over is not null && material is not (null or Material.Film)) || over == Material.Film)
        {
            place["over"].Refuse("what lies under a film, for the material film only");
        }

        Place where = place["place"].OneOf<Place>() ?? Place.Outside;
        ImmutableArray<ProductLayers> system = SystemOfSurface.Read(place, catalogue);
        int sections = place["sections"].Integer(1, MostSections) ?? 1;
        return id is null || material is null || system.IsEmpty
            ? null
            : new Surface(id, material.Value, over, where, system[0].Product, system[0].Revision, system[0].Layers, sections).With(system);
    }
}
