namespace CureWatch.Service.Handbook;

/// <summary>A word of a text.</summary>
/// <param name="Word">The word as it is compared.</param>
/// <param name="From">Where it begins in the text.</param>
/// <param name="To">Where it has ended.</param>
/// <param name="IsPart">Whether it is a part of the word before it, which has hyphens.</param>
internal readonly record struct Term(string Word, int From, int To, bool IsPart)
{
    /// <summary>Fewer letters stand inside too many words to mean anything there. Source (choice).</summary>
    private const int LeastInside = 4;

    /// <param name="word">What was looked for.</param>
    /// <param name="joinsWords">Whether the language writes several words as one, so that it may stand inside.</param>
    public bool IsMeantBy(string word, bool joinsWords) =>
        Word.StartsWith(word, StringComparison.Ordinal) || (joinsWords && word.Length >= LeastInside && Word.Contains(word, StringComparison.Ordinal));

    public bool IsMeantByAny(string[] words, bool joinsWords)
    {
        foreach (string word in words)
        {
            if (IsMeantBy(word, joinsWords))
            {
                return true;
            }
        }

        return false;
    }
}
