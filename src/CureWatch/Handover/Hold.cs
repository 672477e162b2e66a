using CureWatch.Words;

namespace CureWatch.Handover;

/// <summary>A reason the car may not leave.</summary>
/// <param name="Kind">The kind.</param>
/// <param name="Surface">The surface.</param>
/// <param name="Layer">The layer; null where it is the whole surface.</param>
/// <param name="Section">The section; null where it is the whole surface.</param>
/// <param name="Text">What happened, and who can lift it how.</param>
public sealed record Hold(HoldKind Kind, string Surface, int? Layer, int? Section, Sentence Text)
{
    /// <summary>Whether the work it waits for should have been done by now: it will not be done in the course of things, somebody has to see to it.</summary>
    public bool IsOverdue { get; init; }

    /// <summary>Whether no time lifts it, and no work that is still to come: somebody has to look, or to dry.</summary>
    public bool IsForPeople => IsOverdue || Kind is not (HoldKind.KeepDry or HoldKind.NotApplied or HoldKind.NotLevelled);
}

/// <summary>The reasons a car may not leave.</summary>
public enum HoldKind
{
    /// <summary>A planned coat is not on.</summary>
    NotApplied,

    /// <summary>Keep-dry is not over.</summary>
    KeepDry,

    /// <summary>A coat was not levelled.</summary>
    NotLevelled,

    /// <summary>A coat was not levelled in time.</summary>
    LevelMissed,

    /// <summary>Something was done outside its window.</summary>
    OutOfWindow,

    /// <summary>Water touched a coat that had to stay dry.</summary>
    Wetted,

    /// <summary>Water condensed on a coat that had to stay dry.</summary>
    Condensation,

    /// <summary>A surface got hotter than it may.</summary>
    Heat,

    /// <summary>A coat that had to stay dry was where nobody measures.</summary>
    Unwatched,

    /// <summary>Something was told long after, or told otherwise.</summary>
    ReportedLate,

    /// <summary>An inspection found something.</summary>
    Inspection,
}
