using CureWatch.Products;

namespace CureWatch.Service.Settings;

/// <summary>A configuration folder, read: the shop and its product sheets.</summary>
internal sealed record Configuration(ShopSettings Shop, Catalogue Catalogue)
{
    /// <returns>The configuration, or null where any of its files holds a fault.</returns>
    public static Configuration? Read(string directory, Faults faults) =>
        ConfigurationFolder.Find(directory, faults) is { } folder ? Read(folder, faults) : null;

    /// <inheritdoc cref="Read(string, Faults)"/>
    public static Configuration? Read(ConfigurationFolder folder, Faults faults)
    {
        int before = faults.Count;
        ShopSettings? shop = ShopFile.Read(folder.Shop, faults);
        List<ProductSheet> sheets = Sheets(folder, faults);
        return shop is null || faults.Count > before ? null : new Configuration(shop, new Catalogue(sheets));
    }

    private static List<ProductSheet> Sheets(ConfigurationFolder folder, Faults faults)
    {
        var sheets = new List<ProductSheet>();
        var files = new Dictionary<(string Product, int Revision), string>();
        foreach (string file in folder.Products)
        {
            if (ProductFile.Read(file, faults) is not { } sheet)
            {
                continue;
            }

            if (files.TryAdd((sheet.Product, sheet.Revision), file))
            {
                sheets.Add(sheet);
            }
            else
            {
                string other = files[(sheet.Product, sheet.Revision)];
                string seen = $"{sheet.Product} revision {sheet.Revision}";
                faults.Add(file, "/revision", seen, $"a revision that no other file has; {other} has this one");
            }
        }

        return sheets;
    }
}
