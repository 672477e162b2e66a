namespace CureWatch.Service.Handbook;

/// <summary>Finds where the handbook speaks of what somebody typed: places that have every word, headings before text.</summary>
internal sealed class WordSearch
{
    /// <summary>Nobody types more to find something. Source (choice).</summary>
    public const int MostSigns = 100;

    private const int MostWords = 8;

    private readonly Place[] _places;

    public WordSearch(IEnumerable<Chapter> chapters) =>
        _places = [.. chapters.SelectMany(chapter => chapter.Sections.Select(section => new Place(
            chapter, section, [.. Folding.TermsOf(chapter.Title)], [.. Folding.TermsOf(section.Heading)], [.. Folding.TermsOf(section.Text)])))];

    /// <summary>Looks for words by their beginnings, in any order.</summary>
    /// <param name="typed">What was typed, whatever it is.</param>
    public Finding Find(string typed)
    {
        string[] words = [.. Folding.TermsOf(typed.Length > MostSigns ? typed[..MostSigns] : typed).Where(t => !t.IsPart).Select(t => t.Word).Distinct().Take(MostWords)];
        FoundPlace[] places = Having(words, words.Length);
        return places.Length > 0 || words.Length < 2 ? new Finding(words, places, HasEveryWord: true) : new Finding(words, Having(words, 1), HasEveryWord: false);
    }

    private FoundPlace[] Having(string[] words, int least) => words.Length == 0
        ? []
        : [.. from place in _places
              let own = words.Count(place.Has)
              where own > 0 && words.Count(w => place.Has(w) || place.IsUnder(w)) >= least
              orderby own descending, words.Count(place.IsAbout) descending, place.TimesOf(words) descending
              select new FoundPlace(place.Chapter, place.Section, Excerpt.Of(place.Section.Text, place.Text, words))];

    private sealed record Place(Chapter Chapter, Section Section, Term[] Title, Term[] Heading, Term[] Text)
    {
        public bool IsAbout(string word) => Heading.Any(t => t.BeginsWithAny([word]));

        public bool Has(string word) => IsAbout(word) || Text.Any(t => t.BeginsWithAny([word]));

        public bool IsUnder(string word) => Title.Any(t => t.BeginsWithAny([word]));

        public int TimesOf(string[] words) => Text.Count(t => t.BeginsWithAny(words));
    }
}
