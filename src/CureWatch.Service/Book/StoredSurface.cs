using CureWatch.Curing;
using CureWatch.Panels;
using CureWatch.Service.Settings;

namespace CureWatch.Service.Book;

/// <summary>A surface of a job on disk.</summary>
internal sealed class StoredSurface
{
    public string Surface { get; set; } = "";

    public string Material { get; set; } = "";

    public string? Over { get; set; }

    public string Place { get; set; } = "";

    public string Product { get; set; } = "";

    public int Revision { get; set; }

    public int Layers { get; set; }

    public int Sections { get; set; }

    /// <summary>The products in order, where there are several.</summary>
    public List<StoredProduct> System { get; set; } = [];

    public static StoredSurface Of(Surface surface) => new()
    {
        Surface = surface.Id,
        Material = WireName<Material>.Of(surface.Material),
        Over = surface.Over is { } over ? WireName<Material>.Of(over) : null,
        Place = WireName<Place>.Of(surface.Place),
        Product = surface.Product,
        Revision = surface.Revision,
        Layers = surface.Layers,
        Sections = surface.Sections,
        System = surface.Then is null ? [] : [.. surface.Products().Select(StoredProduct.Of)],
    };

    public Surface Read()
    {
        var surface = new Surface(
            Surface,
            StoredName.Of<Material>(Material),
            Over is null ? null : StoredName.Of<Material>(Over),
            StoredName.Of<Place>(Place),
            Product,
            Revision,
            Layers,
            Sections);
        return System.Count == 0 ? surface : surface.With([.. System.Select(p => p.Read())]);
    }
}
