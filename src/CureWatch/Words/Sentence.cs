using System.Collections.Immutable;
using System.Runtime.CompilerServices;
using System.Runtime.InteropServices;

namespace CureWatch.Words;

/// <summary>
/// What is said to people: words and the figures in them, put into somebody's language and degrees only when it is said. It is written as an
/// interpolated string: <c>Sentence wait = $"Wait until {clock}.";</c>
/// </summary>
/// <remarks>
/// No string becomes a sentence, and no sentence a string by itself: what was put together as text in one language cannot be said in another. Two
/// sentences are equal where their words and their figures are.
/// </remarks>
[InterpolatedStringHandler]
public sealed class Sentence : IEquatable<Sentence>
{
    private readonly ImmutableArray<string> _words; // each stands before the figure of its number, the last at the end
    private readonly ImmutableArray<Figure> _figures;
    private int _count;

    /// <summary>Begins a sentence; the compiler appends what is in it.</summary>
    /// <param name="literalLength">How many characters its words have.</param>
    /// <param name="formattedCount">How many figures it has.</param>
    public Sentence(int literalLength, int formattedCount)
    {
        _ = literalLength;
        string[] words = new string[formattedCount + 1];
        Array.Fill(words, "");
        _words = ImmutableCollectionsMarshal.AsImmutableArray(words);
        _figures = formattedCount == 0 ? [] : ImmutableCollectionsMarshal.AsImmutableArray(new Figure[formattedCount]);
    }

    /// <summary>Nothing to say.</summary>
    public static Sentence None { get; } = $"";

    /// <summary>Whether there is nothing to say.</summary>
    public bool IsNone => _figures.IsEmpty && _words[0].Length == 0;

    /// <summary>Its words in English, with the figures as <c>{0}</c>, <c>{1}</c>, …</summary>
    public string Template => _figures.IsEmpty ? _words[0] : string.Concat(_words.Select((w, i) => i < _figures.Length ? $"{w}{{{i}}}" : w));

    /// <summary>The figures in it, in their order in English.</summary>
    public ImmutableArray<Figure> Figures => _figures;

    /// <summary>Several as one, with a phrase between them.</summary>
    /// <param name="between">What stands between two: a space, a comma, or a word such as " and ".</param>
    /// <param name="parts">What is said.</param>
    /// <returns>One sentence; <see cref="None"/> of none.</returns>
    public static Sentence Join(string between, IEnumerable<Sentence> parts) => Row(between, parts.Select(p => (Figure)new Figure.Said(p)));

    /// <summary>Several names as one, with a phrase between them.</summary>
    /// <param name="between">What stands between two: a space, a comma, or a word such as " and ".</param>
    /// <param name="names">The names.</param>
    /// <returns>One sentence; <see cref="None"/> of none.</returns>
    public static Sentence Names(string between, IEnumerable<string> names) => Row(between, names.Select(n => (Figure)new Figure.Name(n)));

    /// <summary>A name that is all there is to say.</summary>
    /// <param name="name">The name: said as it is, whatever the tongue.</param>
    /// <returns>A sentence.</returns>
    public static Sentence Named(string name) => $"{name}";

    /// <summary>A word of the program's own, such as the name of a material: it has its phrase in every tongue.</summary>
    /// <param name="english">The word; never what people typed.</param>
    /// <returns>A sentence.</returns>
    public static Sentence Word(string english)
    {
        var word = new Sentence(english.Length, 0);
        word.AppendLiteral(english);
        return word;
    }

    /// <summary>Words that are a figure alone.</summary>
    /// <param name="figure">The figure.</param>
    /// <returns>A sentence.</returns>
    public static Sentence Of(Figure figure) => $"{figure}";

    /// <summary>Appends words.</summary>
    /// <param name="value">The words.</param>
    public void AppendLiteral(string value) => ImmutableCollectionsMarshal.AsArray(_words)![_count] += value;

    /// <summary>Appends a name.</summary>
    /// <param name="value">The name: said as it is, whatever the tongue.</param>
    public void AppendFormatted(string? value) => Append(new Figure.Name(value ?? ""));

    /// <summary>Appends words that are said in the same tongue.</summary>
    /// <param name="value">The words; null for none.</param>
    [OverloadResolutionPriority(1)]
    public void AppendFormatted(Sentence? value) => Append(new Figure.Said(value ?? None));

    /// <summary>Appends a figure.</summary>
    /// <param name="value">The figure.</param>
    public void AppendFormatted(Figure value) => Append(value);

    /// <summary>Appends a whole number.</summary>
    /// <param name="value">The number.</param>
    public void AppendFormatted(int value) => Append(new Figure.Number(value, "0"));

    /// <summary>Appends a whole number.</summary>
    /// <param name="value">The number.</param>
    /// <param name="format">How it is written.</param>
    public void AppendFormatted(int value, string format) => Append(new Figure.Number(value, format));

    /// <summary>Appends a number.</summary>
    /// <param name="value">The number.</param>
    /// <param name="format">How it is written.</param>
    public void AppendFormatted(double value, string format) => Append(new Figure.Number(value, format));

    /// <summary>Appends a length of time.</summary>
    /// <param name="value">The length.</param>
    /// <param name="format">How it is written.</param>
    public void AppendFormatted(TimeSpan value, string format) => Append(new Figure.Span(value, format));

    /// <summary>Appends an instant.</summary>
    /// <param name="value">The instant on the shop's wall clock.</param>
    /// <param name="format">How much of it is said, as English writes it.</param>
    public void AppendFormatted(DateTimeOffset value, string format) => Append(new Figure.Clock(value.DateTime, format));

    /// <summary>The same with a capital first letter.</summary>
    /// <returns>The sentence.</returns>
    public Sentence Capital() => $"{new Figure.Said(this).Capital()}";

    /// <summary>The sentence as <paramref name="tongue"/> says it.</summary>
    /// <param name="tongue">How it is said.</param>
    /// <returns>The text.</returns>
    public string SaidIn(ITongue tongue)
    {
        if (tongue is English)
        {
            return string.Concat(_words.SelectMany((w, i) => i < _figures.Length ? new[] { w, _figures[i].SaidIn(tongue) } : [w]));
        }

        return Phrases.Filled(tongue.Phrase(Template), _figures, tongue);
    }

    /// <summary>The sentence in English and °C.</summary>
    /// <returns>The text.</returns>
    public override string ToString() => SaidIn(English.Plain);

    /// <inheritdoc/>
    public bool Equals(Sentence? other) =>
        ReferenceEquals(this, other) || (other is not null && _words.SequenceEqual(other._words, StringComparer.Ordinal) && _figures.SequenceEqual(other._figures));

    /// <inheritdoc/>
    public override bool Equals(object? obj) => Equals(obj as Sentence);

    /// <inheritdoc/>
    public override int GetHashCode() => _figures.Aggregate(_words[0].GetHashCode(StringComparison.Ordinal), HashCode.Combine);

    private static Sentence Row(string between, IEnumerable<Figure> parts) => parts.ToImmutableArray() switch
    {
        [] => None,
        [Figure.Said one] => one.Inner,
        [var one] => $"{one}",
        var several => $"{new Figure.Row(several, between)}",
    };

    private void Append(Figure figure) => ImmutableCollectionsMarshal.AsArray(_figures)![_count++] = figure;
}
