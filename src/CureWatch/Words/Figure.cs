using System.Collections.Immutable;
using CureWatch.Units;

namespace CureWatch.Words;

/// <summary>What a sentence is about beside its words: it is said in the tongue and the degrees of whoever hears it.</summary>
/// <remarks>Formats are .NET's custom numeric and date formats.</remarks>
public abstract record Figure
{
    private Figure()
    {
    }

    /// <summary>The figure as <paramref name="tongue"/> says it.</summary>
    /// <param name="tongue">How it is said.</param>
    /// <returns>The words.</returns>
    public abstract string SaidIn(ITongue tongue);

    /// <summary>The figure in English and °C.</summary>
    /// <returns>The words.</returns>
    public sealed override string ToString() => SaidIn(English.Plain);

    /// <summary>The same with a capital first letter.</summary>
    /// <returns>The figure.</returns>
    public Figure Capital() => new AtTheStart(this);

    /// <summary>A name: said as it is, whatever the tongue.</summary>
    /// <param name="Text">The name.</param>
    public sealed record Name(string Text) : Figure
    {
        /// <inheritdoc/>
        public override string SaidIn(ITongue tongue) => Text;
    }

    /// <summary>A number.</summary>
    /// <param name="Value">The number.</param>
    /// <param name="Format">How it is written.</param>
    public sealed record Number(double Value, string Format) : Figure
    {
        /// <inheritdoc/>
        public override string SaidIn(ITongue tongue) => Value.ToString(Format, tongue.Numbers);
    }

    /// <summary>A temperature.</summary>
    /// <param name="Celsius">The temperature [°C].</param>
    /// <param name="Format">How it is written.</param>
    public sealed record Temperature(double Celsius, string Format) : Figure
    {
        /// <inheritdoc/>
        public override string SaidIn(ITongue tongue) => tongue.IsFahrenheit
            ? $"{Rounded(Fahrenheit.FromCelsius(Celsius), Format, tongue)} °F"
            : $"{Rounded(Celsius, Format, tongue)} °C";
    }

    /// <summary>How far two temperatures are apart, a spread for one.</summary>
    /// <param name="Kelvins">The difference [K].</param>
    /// <param name="Format">How it is written.</param>
    public sealed record Difference(double Kelvins, string Format) : Figure
    {
        /// <inheritdoc/>
        public override string SaidIn(ITongue tongue) => tongue.IsFahrenheit
            ? $"{Rounded(Fahrenheit.PerKelvin * Kelvins, Format, tongue)} °F"
            : $"{Rounded(Kelvins, Format, tongue)} K";
    }

    /// <summary>An instant on the shop's wall clock.</summary>
    /// <param name="Wall">What the clock on the wall shows.</param>
    /// <param name="Format">How much of it is said, as English writes it.</param>
    public sealed record Clock(DateTime Wall, string Format) : Figure
    {
        /// <inheritdoc/>
        public override string SaidIn(ITongue tongue) => Wall.ToString(tongue.Phrase(Format), tongue.Calendar);
    }

    /// <summary>A length of time.</summary>
    /// <param name="Length">The length.</param>
    /// <param name="Format">How it is written.</param>
    public sealed record Span(TimeSpan Length, string Format) : Figure
    {
        /// <inheritdoc/>
        public override string SaidIn(ITongue tongue) => Length.ToString(Format, tongue.Calendar);
    }

    /// <summary>Words inside other words.</summary>
    /// <param name="Inner">The words.</param>
    public sealed record Said(Sentence Inner) : Figure
    {
        /// <inheritdoc/>
        public override string SaidIn(ITongue tongue) => Inner.SaidIn(tongue);
    }

    /// <summary>Several figures, with a phrase between them.</summary>
    /// <param name="Parts">The figures.</param>
    /// <param name="Between">What stands between two of them: a space, a comma, or a word such as " and ".</param>
    public sealed record Row(ImmutableArray<Figure> Parts, string Between) : Figure
    {
        /// <inheritdoc/>
        public override string SaidIn(ITongue tongue) => string.Join(tongue.Phrase(Between), Parts.Select(p => p.SaidIn(tongue)));

        /// <inheritdoc/>
        public bool Equals(Row? other) => other is not null && Between == other.Between && Parts.SequenceEqual(other.Parts);

        /// <inheritdoc/>
        public override int GetHashCode() => Parts.Aggregate(Between.GetHashCode(StringComparison.Ordinal), HashCode.Combine);
    }

    /// <summary>A figure at the start of a sentence.</summary>
    /// <param name="Inner">The figure.</param>
    public sealed record AtTheStart(Figure Inner) : Figure
    {
        /// <inheritdoc/>
        public override string SaidIn(ITongue tongue) => Inner.SaidIn(tongue) is { Length: > 0 } text ? $"{char.ToUpperInvariant(text[0])}{text[1..]}" : "";
    }

    /// <summary>Words without the full stop they end with, where another sentence goes on from them.</summary>
    /// <param name="Inner">The words.</param>
    public sealed record Unended(Sentence Inner) : Figure
    {
        /// <inheritdoc/>
        public override string SaidIn(ITongue tongue) => Inner.SaidIn(tongue).TrimEnd('.');
    }

    private static string Rounded(double value, string format, ITongue tongue) => (value + 0.0).ToString(format, tongue.Numbers);
}
