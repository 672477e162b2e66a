using CureWatch.Words;

namespace CureWatch.Service.Charts;

/// <summary>What a chart over time shows, whoever draws it: the drawing and the table beside it say the same.</summary>
/// <param name="Title">What it shows, in a few words.</param>
/// <param name="Text">The same in a sentence or two, for somebody who does not see it.</param>
/// <param name="From">Its left edge.</param>
/// <param name="Now">What is over ends here.</param>
/// <param name="To">Its right edge.</param>
/// <param name="Lines">What runs through it.</param>
/// <param name="Bands">What surrounds a line.</param>
/// <param name="Rows">What lasts from one time to another, under the lines.</param>
public sealed record Chart(
    Sentence Title,
    Sentence Text,
    DateTimeOffset From,
    DateTimeOffset Now,
    DateTimeOffset To,
    IReadOnlyList<ChartLine> Lines,
    IReadOnlyList<ChartBand> Bands,
    IReadOnlyList<ChartRow> Rows);

/// <summary>A line; it is broken where a value is missing.</summary>
public sealed record ChartLine(Ink Ink, IReadOnlyList<(DateTimeOffset At, double? Value)> Points);

/// <summary>What lies between two values at each instant.</summary>
public sealed record ChartBand(Ink Ink, IReadOnlyList<(DateTimeOffset At, double Low, double High)> Points);

/// <summary>A row of spans.</summary>
/// <param name="Name">Whose they are.</param>
/// <param name="Spans">The spans; a later one covers an earlier.</param>
public sealed record ChartRow(string Name, IReadOnlyList<(Ink Ink, DateTimeOffset From, DateTimeOffset To)> Spans);

/// <summary>What something is drawn as; the style sheet knows how that looks, in the light and in the dark.</summary>
public enum Ink
{
    Grid,
    Now,
    Air,
    Panel,
    DewPoint,
    PanelBand,
    DewPointBand,
    KeepDry,
    Recoat,
    LevelOff,
}
