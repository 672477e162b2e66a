using CureWatch.Words;

namespace CureWatch.Service.Board;

/// <summary>What to know of a bay at lock-up and in the morning.</summary>
/// <param name="Tone">How the night looks.</param>
/// <param name="Tonight">What it comes to, in a sentence; null where nothing has to stay dry.</param>
/// <param name="Detail">What else is likely, and what helps; empty where there is nothing to add.</param>
/// <param name="OnCall">What whoever is on call has to know.</param>
/// <param name="Doors">What opening a door would do; null where nothing.</param>
/// <param name="Cautions">What to take care of beside what is suggested.</param>
/// <param name="Morning">What happened since lock-up, and what to look at first; null in the afternoon.</param>
/// <param name="LookFirst">Every hold, what spoils most first; empty in the afternoon.</param>
public sealed record NightView(
    Tone Tone, Sentence? Tonight, Sentence Detail, Sentence OnCall, Sentence? Doors, IReadOnlyList<string> Cautions, Sentence? Morning, IReadOnlyList<Sentence> LookFirst);
