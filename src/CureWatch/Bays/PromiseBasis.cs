namespace CureWatch.Bays;

/// <summary>What a foreseen collection rests on: held against a later one, it says what has changed.</summary>
/// <param name="At">When it was looked at.</param>
/// <param name="CollectFrom">From when the car could be collected, as was foreseen; null where nobody could tell.</param>
/// <param name="Governing">The coat that decided, in words.</param>
/// <param name="CureStart">When its cure clock started, or was expected to; null where nobody could tell.</param>
/// <param name="Climate">The climate it was expected to cure in; null where it was not on yet.</param>
/// <param name="WettedAt">When its surface was last wetted; null where it was not.</param>
/// <param name="IsUnheard">Whether no air probe was heard where it was.</param>
public sealed record PromiseBasis(
    DateTimeOffset At,
    DateTimeOffset? CollectFrom,
    Words.Sentence Governing,
    DateTimeOffset? CureStart,
    PanelClimate? Climate,
    DateTimeOffset? WettedAt,
    bool IsUnheard);
