using System.Globalization;
using CureWatch.Words;

namespace CureWatch.Service.Board;

/// <summary>What a form calls the field that a place in its JSON stands for.</summary>
internal static class FieldWords
{
    /// <param name="place">A JSON Pointer (RFC 6901).</param>
    /// <param name="surfaces">The surfaces in their order there, as they were filled in.</param>
    public static Sentence Of(string place, IReadOnlyList<string> surfaces)
    {
        string[] keys = place.Split('/', StringSplitOptions.RemoveEmptyEntries);
        var fields = new List<Sentence>();
        for (int i = 0; i < keys.Length; i++)
        {
            bool isList = int.TryParse(keys.ElementAtOrDefault(i + 1), NumberStyles.None, CultureInfo.InvariantCulture, out int index);
            fields.Add(isList ? EntryOf(keys[i++], index, surfaces) : Of(keys[i], isOfAnEntry: i > 0));
        }

        return fields.Count == 0 ? (Sentence)$"The form" : Sentence.Join(", ", fields);
    }

    private static Sentence EntryOf(string list, int index, IReadOnlyList<string> surfaces) =>
        list == "surfaces" && index < surfaces.Count ? Sentence.Named(surfaces[index])
        : list == "system" ? (Sentence)$"Product {index + 1}"
        : $"{Of(list, isOfAnEntry: false)} {index + 1}";

    private static Sentence Of(string key, bool isOfAnEntry) => key switch
    {
        "surface" => isOfAnEntry ? (Sentence)$"Name" : $"Surface",
        "surfaces" => $"Surfaces",
        "system" => $"Products",
        "material" => $"Material",
        "over" => $"Under a film",
        "place" => $"Where",
        "product" => $"Product",
        "layers" => $"Layers",
        "layer" => $"Layer",
        "sections" => $"Sections",
        "section" => $"Section",
        "panelC" or "panelF" => $"Measured",
        "arrivesAt" => $"Comes",
        "arrivesAtC" or "arrivesAtF" => $"How cold or warm",
        "plannedAt" => $"Begin coating",
        "promisedAt" => $"Promised for",
        "at" => $"When",
        "startedAt" => $"First wipe",
        "corrects" => $"What is corrected",
        "toBay" => $"Where to",
        "bay" => $"Bay",
        "car" or "job" => $"Car",
        "work" => $"Work",
        "from" => $"From",
        "to" => $"To",
        "batch" => $"Batch",
        "by" => $"Who",
        "note" => $"Note",
        "despite" => $"Why it leaves although it is held",
        "photo" => $"Photo",
        _ => Sentence.Named(key),
    };
}
