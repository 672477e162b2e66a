using System.Collections.Immutable;
using System.Globalization;
using System.Text.RegularExpressions;

namespace CureWatch.Words;

/// <summary>Phrases with places for figures.</summary>
public static partial class Phrases
{
    /// <summary>Which figures a phrase has places for.</summary>
    /// <param name="phrase">The phrase.</param>
    /// <returns>Their numbers, each once, in order.</returns>
    public static ImmutableArray<int> Places(string phrase) => [.. Place().Matches(phrase).Select(NumberOf).Distinct().Order()];

    /// <summary>Puts figures in their places.</summary>
    internal static string Filled(string phrase, ImmutableArray<Figure> figures, ITongue tongue) => figures.IsEmpty
        ? phrase
        : Place().Replace(phrase, place => NumberOf(place) < figures.Length ? figures[NumberOf(place)].SaidIn(tongue) : place.Value);

    private static int NumberOf(Match place) => int.Parse(place.Groups[1].ValueSpan, NumberStyles.None, CultureInfo.InvariantCulture);

    [GeneratedRegex(@"\{(\d{1,2})\}", RegexOptions.CultureInvariant)]
    private static partial Regex Place();
}
