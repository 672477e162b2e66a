using CureWatch.Curing;

namespace CureWatch.Service.Book;

/// <summary>The layers of one product of a surface's system on disk.</summary>
internal sealed class StoredProduct
{
    public string Product { get; set; } = "";

    public int Revision { get; set; }

    public int Layers { get; set; }

    public static StoredProduct Of(ProductLayers part) => new() { Product = part.Product, Revision = part.Revision, Layers = part.Layers };

    public ProductLayers Read() => new(Product, Revision, Layers);
}
