using System.Collections.Frozen;
using System.Text;
using CureWatch.Service.Tongues;

namespace CureWatch.Service.Handbook;

/// <summary>The whole handbook in one language, made once, when somebody first opens it: a shop that never does pays nothing for it.</summary>
public sealed class HandbookText
{
    private const string Folder = "handbook/";
    private const string Suffix = ".md";

    private static readonly FrozenDictionary<Language, Lazy<HandbookText>> Made =
        Language.All.ToFrozenDictionary(l => l, l => new Lazy<HandbookText>(() => new HandbookText(l)));

    private readonly FrozenDictionary<string, Chapter> _chapters;

    private HandbookText(Language language)
    {
        string contents = Load(language, "contents");
        Contents = Read("", contents, language);
        InOrder = [.. Markup.ListedIn(contents).Select(id => Read(id, Facts.Filled(Load(language, id), new Tongue(language, isFahrenheit: false)), language))];
        _chapters = InOrder.ToFrozenDictionary(s => s.Id);
        Search = new WordSearch(InOrder, language.JoinsWords);
    }

    public Chapter Contents { get; }

    /// <summary>The pages in the order of the contents.</summary>
    public IReadOnlyList<Chapter> InOrder { get; }

    internal WordSearch Search { get; }

    internal static HandbookText In(Language language) => Made[language].Value;

    /// <summary>Every text that ships in a language, whether the contents name it or not.</summary>
    internal static IEnumerable<string> Shipped(Language language) => typeof(HandbookText).Assembly.GetManifestResourceNames()
        .Where(n => n.StartsWith(FolderOf(language), StringComparison.Ordinal)).Select(n => n[FolderOf(language).Length..^Suffix.Length]);

    public Chapter? Find(string id) => _chapters.GetValueOrDefault(id);

    /// <summary>A page has the anchors of its English in each language.</summary>
    private static Chapter Read(string id, string text, Language language) => language == Language.English
        ? Markup.Read(id, text)
        : Markup.Read(id, text, id.Length == 0 ? In(Language.English).Contents : In(Language.English).Find(id));

    private static string FolderOf(Language language) => $"{Folder}{language.Code}/";

    private static string Load(Language language, string id)
    {
        using Stream stream = typeof(HandbookText).Assembly.GetManifestResourceStream($"{FolderOf(language)}{id}{Suffix}")
            ?? throw new InvalidOperationException($"The contents in '{language.Code}' name '{id}', which does not ship.");
        using var reader = new StreamReader(stream, Encoding.UTF8);
        return reader.ReadToEnd();
    }
}
