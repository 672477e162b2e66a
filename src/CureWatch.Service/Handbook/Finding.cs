namespace CureWatch.Service.Handbook;

/// <summary>What a search came to.</summary>
/// <param name="Words">The words that were looked for; none where nothing that is a word was typed.</param>
/// <param name="Count">How many places there are.</param>
/// <param name="Places">The best of them, the best first.</param>
/// <param name="HasEveryWord">Whether each place has every word; else no place has, and these have some.</param>
public sealed record Finding(IReadOnlyList<string> Words, int Count, IReadOnlyList<FoundPlace> Places, bool HasEveryWord);

/// <summary>A place in the handbook that was found.</summary>
/// <param name="Chapter">Its page.</param>
/// <param name="Section">Its section there.</param>
/// <param name="Excerpt">Some of its text, in pieces, each with whether it was looked for.</param>
public sealed record FoundPlace(Chapter Chapter, Section Section, IReadOnlyList<(string Text, bool IsHit)> Excerpt)
{
    public string Address => Section.Anchor.Length == 0 ? Chapter.Address : $"{Chapter.Address}#{Section.Anchor}";

    public string Name => Section.Anchor.Length == 0 ? Chapter.Title : $"{Chapter.Title}: {Section.Heading}";
}
