using System.Globalization;
using System.Text;

namespace CureWatch.Service.Settings;

/// <summary>What somebody else wrote, fit for one line of a terminal or a log, whatever it holds.</summary>
internal static class OneLine
{
    private const int LongestRead = 2000;

    /// <returns>The text without breaks and control characters, each run of which is one space.</returns>
    public static string Of(string text)
    {
        var line = new StringBuilder(text.Length);
        bool blank = false;
        foreach (Rune rune in text.AsSpan(0, Math.Min(text.Length, LongestRead)).EnumerateRunes())
        {
            bool unprintable = Rune.GetUnicodeCategory(rune) is UnicodeCategory.Control or UnicodeCategory.Format
                or UnicodeCategory.LineSeparator or UnicodeCategory.ParagraphSeparator or UnicodeCategory.SpaceSeparator;
            if (!unprintable)
            {
                line.Append(rune.ToString());
            }
            else if (!blank)
            {
                line.Append(' ');
            }

            blank = unprintable;
        }

        return line.ToString().Trim();
    }

    /// <returns>The same, cut where it is longer.</returns>
    public static string Of(string text, int longest)
    {
        string line = Of(text);
        if (line.Length <= longest)
        {
            return line;
        }

        int end = char.IsHighSurrogate(line[longest - 2]) ? longest - 2 : longest - 1;
        return string.Concat(line.AsSpan(0, end), "…");
    }
}
