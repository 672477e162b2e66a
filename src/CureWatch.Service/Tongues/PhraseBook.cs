using System.Collections;
using System.Collections.Frozen;
using System.Resources;

namespace CureWatch.Service.Tongues;

/// <summary>What stands in a language for the program's English phrases, from the .resx files beside this one.</summary>
internal sealed class PhraseBook
{
    private readonly FrozenDictionary<string, string> _phrases;

    private PhraseBook(IEnumerable<KeyValuePair<string, string>> phrases) => _phrases = phrases.ToFrozenDictionary(StringComparer.Ordinal);

    public static PhraseBook Empty { get; } = new([]);

    public IReadOnlyDictionary<string, string> Phrases => _phrases;

    /// <summary>The phrases of one language: those of the library, of the pages, of what is refused, and the cautions of the sheets that ship with the program.</summary>
    public static PhraseBook Of(string language) =>
        new(((string[])["Sentences", "Pages", "Refusals", "Sheets"]).SelectMany(book => Read($"{book}.{language}.resources")));

    /// <returns>
    /// The phrase; the English one where the book has none. One that begins with a capital is found without it too, and one of several lines as one line.
    /// </returns>
    public string Find(string english) =>
        Found(english) ?? (english.Contains('\n', StringComparison.Ordinal) ? Found(english.ReplaceLineEndings(" ")) : null) ?? english;

    private string? Found(string english) => _phrases.TryGetValue(english, out string? phrase) ? phrase
        : english is [>= 'A' and <= 'Z', ..] && _phrases.TryGetValue($"{char.ToLowerInvariant(english[0])}{english[1..]}", out phrase)
            ? $"{char.ToUpperInvariant(phrase[0])}{phrase[1..]}"
        : null;

    public static IEnumerable<KeyValuePair<string, string>> Read(string name)
    {
        using Stream stream = typeof(PhraseBook).Assembly.GetManifestResourceStream(name) ?? throw new ArgumentException($"No phrases '{name}'.", nameof(name));
        using var reader = new ResourceReader(stream);
        return [.. reader.Cast<DictionaryEntry>().Select(e => KeyValuePair.Create((string)e.Key, (string)e.Value!))];
    }
}
