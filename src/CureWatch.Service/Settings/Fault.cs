using System.Globalization;
using System.Text;

namespace CureWatch.Service.Settings;

/// <summary>One thing that cannot be used in something a person wrote. Always one line, whatever the file held.</summary>
internal sealed record Fault
{
    private const int LongestPlace = 200;
    private const int LongestSeen = 80;
    private const int LongestRead = 2000;

    /// <param name="file">The file, as the person named it.</param>
    /// <param name="place">A line, or a JSON Pointer (RFC 6901), which is empty for the whole document.</param>
    /// <param name="seen">What stands there; cut where it is long.</param>
    /// <param name="allowed">What may stand there.</param>
    public Fault(string file, string place, string seen, string allowed)
    {
        File = OneLine(file);
        Place = Cut(OneLine(place), LongestPlace);
        Seen = Cut(OneLine(seen), LongestSeen);
        Allowed = OneLine(allowed);
    }

    public string File { get; }

    public string Place { get; }

    public string Seen { get; }

    public string Allowed { get; }

    public override string ToString() => $"{File}: {(Place.Length == 0 ? "whole document" : Place)}: saw {Seen}; allowed: {Allowed}";

    private static string OneLine(string text)
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

    private static string Cut(string text, int longest)
    {
        if (text.Length <= longest)
        {
            return text;
        }

        int end = char.IsHighSurrogate(text[longest - 2]) ? longest - 2 : longest - 1;
        return string.Concat(text.AsSpan(0, end), "…");
    }
}
