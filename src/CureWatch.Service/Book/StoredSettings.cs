using CureWatch.Service.Journal;
using CureWatch.Service.Settings;

namespace CureWatch.Service.Book;

/// <summary><see cref="BookedSettings"/> on disk.</summary>
internal sealed class StoredSettings
{
    public string Id { get; set; } = "";

    public int Version { get; set; } = 1;

    public string Kind { get; set; } = "settings";

    public string Item { get; set; } = "";

    public string ItemId { get; set; } = "";

    public int Revision { get; set; }

    public string Sha256 { get; set; } = "";

    public string Document { get; set; } = "";

    public string Origin { get; set; } = "";

    public long ChangedAtUnixMs { get; set; }

    public static StoredSettings Of(BookedSettings settings) => new()
    {
        Id = $"{settings.Changed.Item.Kind}/{settings.Changed.Item.Id}/{settings.Changed.Item.Revision:D10}",
        Item = settings.Changed.Item.Kind,
        ItemId = settings.Changed.Item.Id,
        Revision = settings.Changed.Item.Revision,
        Sha256 = settings.Changed.Sha256,
        Document = settings.Changed.Document,
        Origin = WireName<SettingsOrigin>.Of(settings.Changed.Origin),
        ChangedAtUnixMs = settings.ChangedAt.ToUnixTimeMilliseconds(),
    };

    public BookedSettings Read() => new(
        DateTimeOffset.FromUnixTimeMilliseconds(ChangedAtUnixMs),
        new Entry.SettingsChanged(new SettingsItem(Item, ItemId, Revision), Sha256, Document, StoredName.Of<SettingsOrigin>(Origin)));
}
