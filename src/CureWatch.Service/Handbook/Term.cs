namespace CureWatch.Service.Handbook;

/// <summary>A word of a text.</summary>
/// <param name="Word">The word as it is compared.</param>
/// <param name="From">Where it begins in the text.</param>
/// <param name="To">Where it has ended.</param>
/// <param name="IsPart">Whether it is a part of the word before it, which has hyphens.</param>
internal readonly record struct Term(string Word, int From, int To, bool IsPart)
{
    public bool BeginsWith(string word) => Word.StartsWith(word, StringComparison.Ordinal);

    public bool BeginsWithAny(string[] words)
    {
        foreach (string word in words)
        {
            if (BeginsWith(word))
            {
                return true;
            }
        }

        return false;
    }
}
