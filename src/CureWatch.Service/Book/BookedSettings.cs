using CureWatch.Service.Journal;

namespace CureWatch.Service.Book;

/// <summary>A shop's settings or a product sheet as they can be looked up.</summary>
/// <param name="ChangedAt">When they came.</param>
/// <param name="Changed">The newest document.</param>
internal sealed record BookedSettings(DateTimeOffset ChangedAt, Entry.SettingsChanged Changed);
