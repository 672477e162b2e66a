using CureWatch.Words;

namespace CureWatch.Service.Board;

/// <summary>A car that is here.</summary>
/// <param name="Job">The job's id.</param>
/// <param name="Car">The car, in the shop's words.</param>
/// <param name="Promise">The pick-up time told to the customer.</param>
/// <param name="Handover">Whether it may leave.</param>
/// <param name="Acts">What somebody has to do, the most pressing first.</param>
/// <param name="Coats">Every coat that is on.</param>
/// <param name="Next">The next coat of each surface that is still to go on.</param>
/// <param name="Start">Whether that can go on now; null where nothing is left to go on.</param>
/// <param name="Arrival">When its surfaces are dry enough, while nothing is on yet; empty after.</param>
/// <param name="Surfaces">Its surfaces, for a form.</param>
/// <param name="Cautions">What to take care of while working on it, and the card does not say above.</param>
/// <param name="Warm">Surfaces that are still warm from a lamp.</param>
/// <param name="TapNumber">How many taps were told: part of the next one's id, so that a form sent twice tells one.</param>
public sealed record CarView(
    string Job,
    string Car,
    Moment? Promise,
    HandoverView Handover,
    IReadOnlyList<CoatView> Acts,
    IReadOnlyList<CoatView> Coats,
    IReadOnlyList<NextCoat> Next,
    CanStartView? Start,
    IReadOnlyList<Sentence> Arrival,
    IReadOnlyList<string> Surfaces,
    IReadOnlyList<string> Cautions,
    IReadOnlyList<Sentence> Warm,
    int TapNumber)
{
    /// <summary>What its times take for granted of the climate.</summary>
    public required Sentence Assumes { get; init; }

    /// <summary>How what its customer was told stands.</summary>
    public required PromiseView HowItStands { get; init; }

    /// <summary>What belongs beside surfaces that are still warm, and the card does not say above.</summary>
    public IReadOnlyList<string> WarmCautions { get; init; } = [];

    /// <summary>What is taken for granted of how cold it came in.</summary>
    public Sentence ArrivalAssumes { get; init; } = Sentence.None;

    /// <summary>What belongs beside what is said of its arrival; null where nothing does, or the card says it above.</summary>
    public string? ArrivalCaution { get; init; }

    /// <summary>What is next on it; null where nothing is left but to wait.</summary>
    public NextView? WhatIsNext { get; init; }
}

/// <summary>Whether a car may leave.</summary>
/// <param name="IsReady">Whether it may.</param>
/// <param name="Collect">When it can be collected, finished and in opening hours; null where that can't be said.</param>
/// <param name="Late">How much later than promised; null where it is in time or nothing was promised.</param>
/// <param name="Reasons">How many reasons there are why it may not.</param>
/// <param name="Holds">Every one of them; those that differ in nothing but the coat are one line.</param>
/// <param name="ForPeople">Those of them that no time lifts.</param>
/// <param name="Notes">What is worth knowing and holds nothing.</param>
public sealed record HandoverView(
    bool IsReady,
    Moment? Collect,
    Sentence? Late,
    int Reasons,
    IReadOnlyList<HoldView> Holds,
    IReadOnlyList<HoldView> ForPeople,
    IReadOnlyList<Sentence> Notes);

/// <summary>A reason a car may not leave.</summary>
/// <param name="Kind">The kind, in words.</param>
/// <param name="Coats">The surfaces, layers and sections.</param>
/// <param name="Text">What happened, and who can lift it how.</param>
public sealed record HoldView(string Kind, Sentence Coats, Sentence Text);

/// <summary>A coat.</summary>
/// <param name="Key">Tells it from the others on the page.</param>
/// <param name="Name">The surface, layer and section.</param>
/// <param name="Target">What a form says of it.</param>
/// <param name="Tone">How urgent it is.</param>
/// <param name="Word">Where it is, in a word or two.</param>
/// <param name="Lines">Its windows, the one that matters now first.</param>
/// <param name="CanBeLevelled">Whether somebody still has to level it.</param>
/// <param name="Lamp">What lamps have earned it.</param>
public sealed record CoatView(
    string Key, Sentence Name, CoatTarget Target, Tone Tone, Sentence Word, IReadOnlyList<WindowLine> Lines, bool CanBeLevelled, IReadOnlyList<Sentence> Lamp);

/// <summary>What a form says of a coat.</summary>
public sealed record CoatTarget(string Surface, int Layer, int Section);

/// <summary>A coat that is still to go on.</summary>
/// <param name="Name">The surface, layer and section.</param>
/// <param name="Product">The product.</param>
/// <param name="Target">What a form says of it.</param>
/// <param name="When">When it may; null where nothing says.</param>
public sealed record NextCoat(Sentence Name, string Product, CoatTarget Target, WindowLine? When);

/// <summary>A window in words.</summary>
/// <param name="Before">The words before the moment.</param>
/// <param name="Moment">The moment that counts; null where there is none to show.</param>
/// <param name="After">The words after it.</param>
/// <param name="Share">How much of it has passed [1]; null where that says nothing.</param>
public sealed record WindowLine(Sentence Before, Moment? Moment, Sentence? After = null, double? Share = null);
