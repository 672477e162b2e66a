namespace CureWatch.Service.Handbook;

/// <summary>Cuts out of a text what stands around the first word that was looked for.</summary>
internal static class Excerpt
{
    private const int TermsBefore = 8;
    private const int MostTerms = 32;

    /// <param name="text">The text.</param>
    /// <param name="terms">Its words.</param>
    /// <param name="wanted">The words that were looked for.</param>
    /// <param name="joinsWords">Whether they may stand inside others.</param>
    /// <returns>The pieces in their order, each with whether it was looked for; put together they are a part of the text.</returns>
    public static IReadOnlyList<(string Text, bool IsHit)> Of(string text, Term[] terms, string[] wanted, bool joinsWords)
    {
        int first = Math.Max(0, Array.FindIndex(terms, t => t.IsMeantByAny(wanted, joinsWords)) - TermsBefore);
        Term[] shown = [.. terms.Skip(first).Take(MostTerms)];
        if (shown.Length == 0)
        {
            return [];
        }

        int at = first == 0 ? 0 : shown[0].From;
        var pieces = new List<(string Text, bool IsHit)> { (first == 0 ? "" : "… ", false) };
        foreach (Term hit in shown.Where(t => t.IsMeantByAny(wanted, joinsWords)))
        {
            if (hit.From < at)
            {
                continue; // a part of the word before it
            }

            pieces.Add((text[at..hit.From], false));
            pieces.Add((text[hit.From..hit.To], true));
            at = hit.To;
        }

        bool isWhole = first + shown.Length == terms.Length;
        pieces.Add((isWhole ? text[at..] : $"{text[at..shown[^1].To]} …", false));
        return [.. pieces.Where(p => p.Text.Length > 0)];
    }
}
