using CureWatch.Panels;
using CureWatch.Words;

namespace CureWatch.Curing;

/// <summary>One coated area of one car: a panel, a glass, a wheel set, a trim group.</summary>
/// <param name="Id">The surface's id, unique in its job.</param>
/// <param name="Material">What it is made of.</param>
/// <param name="Over">What lies under a film; null where it is no film or nobody said.</param>
/// <param name="Place">Where it is.</param>
/// <param name="Product">The id of the product that goes on first.</param>
/// <param name="Revision">The sheet's revision, pinned when the job starts.</param>
/// <param name="Layers">Layers planned of all its products, from 1.</param>
/// <param name="Sections">Sections it is worked in, from 1.</param>
/// <param name="Then">The product that goes over the first; null where it is the only one.</param>
public sealed record Surface(
    string Id, Material Material, Material? Over, Place Place, string Product, int Revision, int Layers, int Sections, NextProduct? Then = null)
{
    /// <summary>The surface as people say it.</summary>
    public string Name => NameOf(Id);

    /// <summary>The same with what it is made of, where that is glass and its name does not say so.</summary>
    public Sentence FullName => Material == Material.Glass && !Name.Contains("glass", StringComparison.Ordinal) ? $"{Name} glass" : Sentence.Named(Name);

    /// <summary>A surface as people say it, by its id alone.</summary>
    /// <param name="id">The id.</param>
    /// <returns>The name, such as <c>left side</c> of <c>left-side</c>.</returns>
    public static string NameOf(string id) => id.Replace('-', ' ');

    /// <summary>Its products from the first on, each with its layers.</summary>
    /// <returns>The products.</returns>
    public IEnumerable<ProductLayers> Products()
    {
        (string product, int revision, int from) = (Product, Revision, 1);
        for (NextProduct? next = Then; next is not null; next = next.Then)
        {
            yield return new ProductLayers(product, revision, next.FromLayer - from);
            (product, revision, from) = (next.Product, next.Revision, next.FromLayer);
        }

        yield return new ProductLayers(product, revision, Layers + 1 - from);
    }

    /// <summary>A surface that is coated with a system of products.</summary>
    /// <param name="system">The products from the first on, each with its layers; at least one.</param>
    /// <returns>The surface.</returns>
    public Surface With(IReadOnlyList<ProductLayers> system)
    {
        int layers = system.Sum(p => p.Layers), from = layers + 1;
        NextProduct? then = null;
        for (int i = system.Count - 1; i > 0; i--)
        {
            from -= system[i].Layers;
            then = new NextProduct(system[i].Product, system[i].Revision, from, then);
        }

        return this with { Product = system[0].Product, Revision = system[0].Revision, Layers = layers, Then = then };
    }

    /// <summary>The sheet of a layer.</summary>
    /// <param name="layer">The layer, from 1; one that was not planned is of the last product.</param>
    /// <returns>Product and revision.</returns>
    public (string Product, int Revision) SheetOf(int layer)
    {
        (string Product, int Revision) sheet = (Product, Revision);
        for (NextProduct? next = Then; next is not null && next.FromLayer <= layer; next = next.Then)
        {
            sheet = (next.Product, next.Revision);
        }

        return sheet;
    }
}
