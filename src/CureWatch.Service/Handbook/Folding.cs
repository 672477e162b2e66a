using System.Globalization;
using System.Text;

namespace CureWatch.Service.Handbook;

/// <summary>
/// Words as a search compares them: in small letters without diacritics, an umlaut that is written out (ue) as one that is not (ü). .NET's own decomposition needs culture data, which this program does without.
/// </summary>
internal static class Folding
{
    /// <summary>A plain letter, and what is written for it in the languages of the Latin alphabet between here and the Bosphorus.</summary>
    private static readonly Dictionary<char, string> Plain = new[]
    {
        "aàáâãäåāăą", "cçćč", "dďđð", "eèéêëēėęě", "gğģ", "iìíîïīįıİ", "kķ", "lĺļľł", "nñńņňŋ", "oòóôõöøōő", "rŕř", "sśşšș", "tţťțŧ", "uùúûüūůűų", "yýÿ", "zźżž",
        "0₀", "1₁", "2²₂", "3³₃",
    }.SelectMany(row => row.Skip(1).Select(letter => (letter, row[..1]))).Concat([('ß', "ss"), ('æ', "ae"), ('œ', "oe"), ('þ', "th")])
        .ToDictionary(pair => pair.Item1, pair => pair.Item2);

    /// <summary>The words of a text, in its order. One with hyphens is one word without them, and each of its parts is one too.</summary>
    public static IEnumerable<Term> TermsOf(string text)
    {
        for (int from = 0; from < text.Length; from++)
        {
            if (!IsOfWord(text, from))
            {
                continue;
            }

            int to = from;
            while (to < text.Length && (IsOfWord(text, to) || IsHyphen(text, to)))
            {
                to++;
            }

            yield return new Term(Folded(text[from..to]), from, to, IsPart: false);
            for (int hyphen = text.IndexOf('-', from, to - from); hyphen >= 0; hyphen = text.IndexOf('-', hyphen + 1, to - hyphen - 1))
            {
                int end = text.IndexOf('-', hyphen + 1, to - hyphen - 1);
                end = end < 0 ? to : end;
                yield return new Term(Folded(text[(hyphen + 1)..end]), hyphen + 1, end, IsPart: true);
            }

            from = to;
        }
    }

    private static string Folded(string word)
    {
        var folded = new StringBuilder(word.Length);
        foreach (char small in word.Where(c => c != '-' && !IsMark(c)).Select(char.ToLowerInvariant))
        {
            folded.Append(Plain.TryGetValue(small, out string? plain) ? plain : small);
        }

        return folded.Replace("ae", "a").Replace("oe", "o").Replace("ue", "u").ToString();
    }

    /// <summary>A mark belongs to the letter before it, as in text whose diacritics stand by themselves.</summary>
    private static bool IsOfWord(string text, int at) => char.IsLetterOrDigit(text[at]) || (at > 0 && IsMark(text[at]));

    private static bool IsHyphen(string text, int at) => text[at] == '-' && at + 1 < text.Length && char.IsLetterOrDigit(text[at + 1]);

    private static bool IsMark(char sign) => char.GetUnicodeCategory(sign) == UnicodeCategory.NonSpacingMark;
}
