using System.Collections.Immutable;

namespace CureWatch.Products;

/// <summary>The product sheets of a shop, every revision of every product.</summary>
public sealed class Catalogue
{
    private readonly ImmutableDictionary<string, ImmutableSortedDictionary<int, ProductSheet>> _products;

    /// <summary>Takes the sheets.</summary>
    /// <param name="sheets">The sheets, in any order.</param>
    /// <exception cref="ArgumentException">Two sheets are the same revision of the same product.</exception>
    public Catalogue(IEnumerable<ProductSheet> sheets)
    {
        Sheets = [.. sheets.OrderBy(s => s.Product, StringComparer.Ordinal).ThenBy(s => s.Revision)];
        _products = Sheets
            .GroupBy(s => s.Product, StringComparer.Ordinal)
            .ToImmutableDictionary(g => g.Key, Revisions, StringComparer.Ordinal);
    }

    /// <summary>Every sheet, by product and revision.</summary>
    public ImmutableArray<ProductSheet> Sheets { get; }

    /// <summary>Finds one revision of a product.</summary>
    /// <param name="product">The product's id.</param>
    /// <param name="revision">The revision.</param>
    /// <returns>The sheet, or null where there is none.</returns>
    public ProductSheet? Find(string product, int revision) => _products.GetValueOrDefault(product)?.GetValueOrDefault(revision);

    /// <summary>Finds the newest revision of a product, which a new job takes unless it names another.</summary>
    /// <param name="product">The product's id.</param>
    /// <returns>The sheet with the highest revision, or null where there is none.</returns>
    public ProductSheet? Newest(string product) => _products.GetValueOrDefault(product)?.Values.Last();

    private static ImmutableSortedDictionary<int, ProductSheet> Revisions(IGrouping<string, ProductSheet> sheets)
    {
        var revisions = ImmutableSortedDictionary.CreateBuilder<int, ProductSheet>();
        foreach (ProductSheet sheet in sheets)
        {
            if (!revisions.TryAdd(sheet.Revision, sheet))
            {
                throw new ArgumentException($"{sheet.Product} revision {sheet.Revision} is there twice.", nameof(sheets));
            }
        }

        return revisions.ToImmutable();
    }
}
