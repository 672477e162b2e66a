using System.Globalization;
using CureWatch.Words;

namespace CureWatch.Service.Board;

/// <summary>What a form calls the field that a place in its JSON stands for, counted as people count: from one.</summary>
internal static class FieldWords
{
    /// <param name="place">A JSON Pointer (RFC 6901).</param>
    public static Sentence Of(string place)
    {
        string[] keys = place.Split('/', StringSplitOptions.RemoveEmptyEntries);
        return keys.Length == 0 ? $"The form" : Sentence.Join(", ", keys.Select((key, i) => i + 1 < keys.Length && Number(keys[i + 1]) is not null ? null : Of(key, i > 0 ? keys[i - 1] : "")).OfType<Sentence>());
    }

    /// <returns>The field, or one of several that the key before it names.</returns>
    private static Sentence Of(string key, string before) => (key, before) switch
    {
        (_, "surfaces") when Number(key) is { } number => $"Surface {number}",
        (_, "system") when Number(key) is { } number => $"Product {number}",
        ("surfaces", _) => $"Surfaces",
        ("system", _) => $"Products",
        ("surface", _) => $"Surface",
        ("material", _) => $"Material",
        ("over", _) => $"Under a film",
        ("place", _) => $"Where",
        ("product", _) => $"Product",
        ("layers", _) => $"Layers",
        ("layer", _) => $"Layer",
        ("sections", _) => $"Sections",
        ("section", _) => $"Section",
        ("panelC" or "panelF", _) => $"Measured",
        ("arrivesAt", _) => $"Comes",
        ("arrivesAtC" or "arrivesAtF", _) => $"How cold or warm",
        ("plannedAt", _) => $"Begin coating",
        ("promisedAt", _) => $"Promised for",
        ("at", _) => $"When",
        ("startedAt", _) => $"First wipe",
        ("corrects", _) => $"What is corrected",
        ("toBay", _) => $"Where to",
        ("bay", _) => $"Bay",
        ("car" or "job", _) => $"Car",
        ("work", _) => $"Work",
        ("from", _) => $"From",
        ("to", _) => $"To",
        ("batch", _) => $"Batch",
        ("by", _) => $"Who",
        ("note", _) => $"Note",
        ("despite", _) => $"Why it leaves although it is held",
        ("photo", _) => $"Photo",
        _ => Sentence.Named(key),
    };

    private static int? Number(string key) => int.TryParse(key, NumberStyles.None, CultureInfo.InvariantCulture, out int index) ? index + 1 : null;
}
