using CureWatch.Words;

namespace CureWatch.Service.Board;

/// <summary>What is next on a car, with its one button.</summary>
/// <param name="Text">What to do.</param>
/// <param name="Tone">How urgent it is.</param>
/// <param name="Button">What the button says; null where one press cannot tell it.</param>
/// <param name="Did">What the button tells.</param>
/// <param name="Surface">The surface it tells it of.</param>
/// <param name="Layer">The layer.</param>
/// <param name="Section">The section; null for all.</param>
/// <param name="Cautions">What to take care of.</param>
/// <param name="Then">What to do after it; null where nothing is known yet.</param>
public sealed record NextView(
    Sentence Text, Tone Tone, string? Button, string Did, string Surface, int Layer, int? Section, IReadOnlyList<string> Cautions, Sentence? Then);
