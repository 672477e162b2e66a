using System.Collections.Frozen;
using System.Text;

namespace CureWatch.Service.Handbook;

/// <summary>The whole handbook in one language, made once, when somebody first opens it: a shop that never does pays nothing for it.</summary>
public sealed class HandbookText
{
    /// <summary>The language that the others follow: a page's places have the same anchors in each.</summary>
    public const string English = "en";

    public const string German = "de";

    private const string Folder = "handbook/";
    private const string Suffix = ".md";

    private static readonly FrozenDictionary<string, Lazy<HandbookText>> Made =
        Languages.ToFrozenDictionary(l => l, l => new Lazy<HandbookText>(() => new HandbookText(l)));

    private readonly FrozenDictionary<string, Chapter> _chapters;

    private HandbookText(string language)
    {
        string contents = Load(language, "contents");
        Contents = Read("", contents, language);
        InOrder = [.. Markup.ListedIn(contents).Select(id => Read(id, Facts.Filled(Load(language, id)), language))];
        _chapters = InOrder.ToFrozenDictionary(s => s.Id);
        Search = new WordSearch(InOrder, joinsWords: language == German);
    }

    public static IReadOnlyList<string> Languages => [English, German];

    public Chapter Contents { get; }

    /// <summary>The pages in the order of the contents.</summary>
    public IReadOnlyList<Chapter> InOrder { get; }

    internal WordSearch Search { get; }

    /// <param name="language">Its name as in BCP 47, in small letters.</param>
    /// <returns>The handbook in it; in English where there is none.</returns>
    public static HandbookText In(string language) => (Made.GetValueOrDefault(language) ?? Made[English]).Value;

    /// <summary>Every text that ships in a language, whether the contents name it or not.</summary>
    public static IEnumerable<string> Shipped(string language) => typeof(HandbookText).Assembly.GetManifestResourceNames()
        .Where(n => n.StartsWith(FolderOf(language), StringComparison.Ordinal)).Select(n => n[FolderOf(language).Length..^Suffix.Length]);

    public Chapter? Find(string id) => _chapters.GetValueOrDefault(id);

    private static Chapter Read(string id, string text, string language) => language == English
        ? Markup.Read(id, text)
        : Markup.Read(id, text, id.Length == 0 ? In(English).Contents : In(English).Find(id));

    private static string FolderOf(string language) => $"{Folder}{language}/";

    private static string Load(string language, string id)
    {
        using Stream stream = typeof(HandbookText).Assembly.GetManifestResourceStream($"{FolderOf(language)}{id}{Suffix}")
            ?? throw new InvalidOperationException($"The contents in '{language}' name '{id}', which does not ship.");
        using var reader = new StreamReader(stream, Encoding.UTF8);
        return reader.ReadToEnd();
    }
}
