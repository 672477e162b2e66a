using CureWatch.Curing;
using CureWatch.TimeWindows;
using CureWatch.Words;

namespace CureWatch.Planning;

/// <summary>A reason not to start now, or one to know before starting.</summary>
/// <param name="Kind">The kind.</param>
/// <param name="Weight">What it means for the start.</param>
/// <param name="Surface">The surface; null where it is about the whole car.</param>
/// <param name="Text">What is the matter, in plain words with figures.</param>
/// <param name="Help">What somebody can do about it; null where nobody has to.</param>
/// <param name="Until">When time alone has cured it; null where it does not, or nobody can tell.</param>
/// <param name="IsHelpHeat">Whether what can be done is to heat, to lamp or to shut the doors, so that the cautions belong beside it.</param>
public sealed record StartReason(
    StartReasonKind Kind, StartWeight Weight, string? Surface, Sentence Text, Sentence? Help = null, TimeBounds? Until = null, bool IsHelpHeat = false)
{
    /// <summary>The tap that tells what can be done about it is done; null where nothing has to be, or telling it takes a figure.</summary>
    public Did? ToldBy { get; init; }
}

/// <summary>What a reason means for the start, the hardest first.</summary>
public enum StartWeight
{
    /// <summary>No waiting cures it: somebody has to do something first.</summary>
    Stops,

    /// <summary>Time alone cures it.</summary>
    Waits,

    /// <summary>The start is free; this is good to know before.</summary>
    Notes,
}

/// <summary>What a reason is about, the hardest first.</summary>
public enum StartReasonKind
{
    /// <summary>Nobody measures where it is.</summary>
    Unwatched,

    /// <summary>No air probe is heard there.</summary>
    AirSilent,

    /// <summary>A panel probe that speaks for it is not heard.</summary>
    PanelSilent,

    /// <summary>Water condenses on it.</summary>
    Condensing,

    /// <summary>Its panel is too close to the dew point, or may be.</summary>
    SpreadThin,

    /// <summary>It is colder than the sheet allows, or may be.</summary>
    PanelCold,

    /// <summary>It is hotter than the sheet allows, or may be.</summary>
    PanelHot,

    /// <summary>It came in cold, and is not yet far enough above the dew point.</summary>
    Arrival,

    /// <summary>A lamp burns on it, or burnt and nobody measured since.</summary>
    Lamp,

    /// <summary>It is still warm from a lamp, by a reading of it, and cools down.</summary>
    LampCoolDown,

    /// <summary>It was polished, and nobody measured since.</summary>
    PolishingHeat,

    /// <summary>The air is moister than the sheet allows.</summary>
    HumidityHigh,

    /// <summary>The air is drier than the sheet allows.</summary>
    HumidityLow,

    /// <summary>Water touched it and may still be in its edges.</summary>
    TrappedWater,

    /// <summary>Water condensed on it, and it was not wiped down since.</summary>
    WasWet,

    /// <summary>It is not wiped down, or not any more.</summary>
    NotWiped,

    /// <summary>The solvent of the wipe-down has not left yet.</summary>
    WipeWet,

    /// <summary>The layer below is not levelled.</summary>
    BelowNotLevelled,

    /// <summary>The layer below is held.</summary>
    BelowHeld,

    /// <summary>The layer below does not take another yet.</summary>
    RecoatUpcoming,

    /// <summary>The layer below takes no other any more.</summary>
    RecoatMissed,

    /// <summary>The layer below takes another only for a while.</summary>
    RecoatClosing,

    /// <summary>The car is not here yet.</summary>
    NotHere,

    /// <summary>Another car is in the bay.</summary>
    BayTaken,

    /// <summary>Work in the air it would share harms it.</summary>
    SharedAir,

    /// <summary>Another car is worked on at the same time, in another bay.</summary>
    SameHands,

    /// <summary>The shop is closed.</summary>
    Closed,

    /// <summary>It would not be done when the shop closes.</summary>
    ClosingTime,

    /// <summary>It cures overnight, and the night may be too cold or too damp.</summary>
    Night,

    /// <summary>In this climate levelling opens too late, or closes too soon, to be timed.</summary>
    JudgeByEye,

    /// <summary>It would not get through keep-dry in this climate.</summary>
    NeverDry,

    /// <summary>The car would not be ready when promised.</summary>
    Promise,

    /// <summary>Every planned layer is on.</summary>
    NothingLeft,
}
