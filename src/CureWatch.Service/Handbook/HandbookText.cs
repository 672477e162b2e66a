using System.Collections.Frozen;
using System.Text;

namespace CureWatch.Service.Handbook;

/// <summary>The whole handbook, made once, when somebody first opens it: a shop that never does pays nothing for it.</summary>
public sealed class HandbookText
{
    private const string Folder = "handbook/";
    private const string Suffix = ".md";

    private static readonly Lazy<HandbookText> Made = new(() => new HandbookText());

    private readonly FrozenDictionary<string, Chapter> _chapters;

    private HandbookText()
    {
        string contents = Load("contents");
        Contents = Markup.Read("", contents);
        InOrder = [.. Markup.ListedIn(contents).Select(id => Markup.Read(id, Facts.Filled(Load(id))))];
        _chapters = InOrder.ToFrozenDictionary(s => s.Id);
        Search = new WordSearch(InOrder);
    }

    public static HandbookText Instance => Made.Value;

    /// <summary>Every text that ships, whether the contents name it or not.</summary>
    public static IEnumerable<string> Shipped => typeof(HandbookText).Assembly.GetManifestResourceNames()
        .Where(n => n.StartsWith(Folder, StringComparison.Ordinal)).Select(n => n[Folder.Length..^Suffix.Length]);

    public Chapter Contents { get; }

    /// <summary>The pages in the order of the contents.</summary>
    public IReadOnlyList<Chapter> InOrder { get; }

    internal WordSearch Search { get; }

    public Chapter? Find(string id) => _chapters.GetValueOrDefault(id);

    private static string Load(string id)
    {
        using Stream stream = typeof(HandbookText).Assembly.GetManifestResourceStream($"{Folder}{id}{Suffix}")
            ?? throw new InvalidOperationException($"The contents name '{id}', which does not ship.");
        using var reader = new StreamReader(stream, Encoding.UTF8);
        return reader.ReadToEnd();
    }
}
