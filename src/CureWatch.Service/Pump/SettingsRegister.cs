using System.Collections.Immutable;
using System.Text;
using CureWatch.Products;
using CureWatch.Service.Journal;
using CureWatch.Service.Settings;

namespace CureWatch.Service.Pump;

/// <summary>The settings as the journal has them.</summary>
/// <param name="Documents">Each item's newest document.</param>
/// <param name="Imported">The hash of each item's document that was last imported from a file.</param>
/// <param name="Shop">The shop's settings; null before they came.</param>
/// <param name="Catalogue">Every product sheet.</param>
internal sealed record SettingsRegister(
    ImmutableSortedDictionary<SettingsItem, Entry.SettingsChanged> Documents,
    ImmutableSortedDictionary<SettingsItem, string> Imported,
    ShopSettings? Shop,
    Catalogue Catalogue)
{
    /// <summary>Before the first document.</summary>
    public static SettingsRegister Blank { get; } = new(
        ImmutableSortedDictionary<SettingsItem, Entry.SettingsChanged>.Empty,
        ImmutableSortedDictionary<SettingsItem, string>.Empty,
        null,
        new Catalogue([]));

    /// <summary>Takes a document in.</summary>
    /// <exception cref="InvalidDataException">The document cannot be read. A shop that only breaks a rule made since is taken as it was: files keep the rules, not the past. A sheet is not: a row that is left out would cure a coat too soon.</exception>
    public SettingsRegister With(Entry.SettingsChanged changed)
    {
        var faults = new Faults();
        byte[] utf8 = Encoding.UTF8.GetBytes(changed.Document);
        string name = $"{changed.Item.Kind} {changed.Item.Id}";
        SettingsRegister after = this with
        {
            Documents = Documents.SetItem(changed.Item, changed),
            Imported = changed.Origin == SettingsOrigin.File ? Imported.SetItem(changed.Item, changed.Sha256) : Imported,
        };
        if (changed.Item.Kind == SettingsItem.Shop)
        {
            return after with { Shop = ShopFile.Recall(name, utf8, faults) ?? throw Unusable(faults) };
        }

        ProductSheet sheet = ProductFile.Parse(name, utf8, faults) ?? throw Unusable(faults);
        return Catalogue.Find(sheet.Product, sheet.Revision) is null ? after with { Catalogue = new Catalogue([.. Catalogue.Sheets, sheet]) } : after;
    }

    private static InvalidDataException Unusable(Faults faults) => new($"The journal holds settings that this program cannot use: {faults.All[0]}");
}
