using System.Numerics;

namespace CureWatch.Service.Handbook;

/// <summary>Finds where the handbook speaks of what somebody typed: places that have every word, headings before text.</summary>
internal sealed class WordSearch
{
    /// <summary>Nobody types more to find something. Source (choice).</summary>
    public const int MostSigns = 100;

    /// <summary>More places nobody reads through. Source (choice).</summary>
    public const int MostPlaces = 20;

    private const int MostWords = 8;

    private readonly Place[] _places;
    private readonly bool _joinsWords;

    /// <param name="chapters">Where to look.</param>
    /// <param name="joinsWords">Whether their language writes several words as one.</param>
    public WordSearch(IEnumerable<Chapter> chapters, bool joinsWords)
    {
        _places = [.. chapters.SelectMany(chapter => chapter.Sections.Select(section => new Place(
            chapter, section, [.. Folding.TermsOf(chapter.Title)], [.. Folding.TermsOf(section.Heading)], [.. Folding.TermsOf(section.Text)])))];
        _joinsWords = joinsWords;
    }

    /// <summary>Looks for words by their beginnings, in any order; where the language joins words, inside them too.</summary>
    /// <param name="typed">What was typed, whatever it is.</param>
    public Finding Find(string typed)
    {
        string[] words = [.. Folding.TermsOf(typed.Length > MostSigns ? typed[..MostSigns] : typed).Where(t => !t.IsPart).Select(t => t.Word).Distinct().Take(MostWords)];
        Hit[] hits = [.. _places.Select(p => p.Look(words, _joinsWords)).Where(h => h.Own > 0)];
        Hit[] whole = [.. hits.Where(h => h.WithTitle == words.Length)];
        Hit[] found = whole.Length > 0 ? whole : hits;
        return new Finding(
            words,
            found.Length,
            [
                .. found.OrderByDescending(h => h.Own).ThenByDescending(h => h.InHeading).ThenByDescending(h => h.IsTitle).ThenByDescending(h => h.Times).Take(MostPlaces)
                    .Select(h => new FoundPlace(h.At.Chapter, h.At.Section, Excerpt.Of(h.At.Section.Text, h.At.Text, words, _joinsWords))),
            ],
            HasEveryWord: whole.Length > 0 || hits.Length == 0);
    }

    private sealed record Place(Chapter Chapter, Section Section, Term[] Title, Term[] Heading, Term[] Text)
    {
        public Hit Look(string[] words, bool joinsWords)
        {
            (uint title, _) = Among(Title, words, joinsWords);
            (uint heading, _) = Among(Heading, words, joinsWords);
            (uint text, int times) = Among(Text, words, joinsWords);
            return new Hit(
                this,
                BitOperations.PopCount(heading | text),
                BitOperations.PopCount(title | heading | text),
                BitOperations.PopCount(heading),
                IsTitle: heading != 0 && Section.Anchor.Length == 0,
                times);
        }

        /// <summary>A bit for each word that is among the terms, and how often any of them is.</summary>
        private static (uint Words, int Times) Among(Term[] terms, string[] words, bool joinsWords)
        {
            (uint found, int times) = (0, 0);
            foreach (Term term in terms)
            {
                for (int i = 0; i < words.Length; i++)
                {
                    if (term.IsMeantBy(words[i], joinsWords))
                    {
                        found |= 1u << i;
                        times++;
                    }
                }
            }

            return (found, times);
        }
    }

    /// <summary>What a place has of the words.</summary>
    /// <param name="At">The place.</param>
    /// <param name="Own">How many of them it has itself.</param>
    /// <param name="WithTitle">How many it has with the title of its page.</param>
    /// <param name="InHeading">How many are in its heading.</param>
    /// <param name="IsTitle">Whether that heading is the title of its page.</param>
    /// <param name="Times">How often any of them is in its text.</param>
    private readonly record struct Hit(Place At, int Own, int WithTitle, int InHeading, bool IsTitle, int Times);
}
