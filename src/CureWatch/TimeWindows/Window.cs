using System.Collections.Immutable;

namespace CureWatch.TimeWindows;

/// <summary>When a stage's act may or must happen.</summary>
/// <param name="Stage">The stage.</param>
/// <param name="OpensAt">When it opens.</param>
/// <param name="ClosesAt">When it closes; null where the sheet gives no end, or only a person can bring it about.</param>
/// <param name="State">Where the coat is in it.</param>
/// <param name="JudgeByEye">True where the slow opening passes the fast closing: no time is shown to people then.</param>
public sealed record Window(WindowStage Stage, TimeBounds OpensAt, TimeBounds? ClosesAt, WindowState State, bool JudgeByEye = false)
{
    private static readonly TimeSpan LongestClosing = TimeSpan.FromMinutes(30);

    /// <summary>How far it is reckoned beyond the sheet's rows; null where they cover it, or nobody asked.</summary>
    public Extrapolation? Beyond { get; init; }

    /// <summary>Which probes were not heard or not believed while it ran; empty where all were, or nobody asked.</summary>
    public ImmutableArray<WindowReason> Because { get; init; } = [];

    /// <summary>
    /// When it would close, or open where it has no close, if every probe at fault were put right now and went on from what is likely; null where none is, or
    /// nobody asked.
    /// </summary>
    public TimeBounds? IfMended { get; init; }

    /// <summary>Whether it may close before anybody can rely on its being open, in a warm and moist climate or a badly known one.</summary>
    public bool IsTooShort => IsTooShortFor(OpensAt, ClosesAt?.Earliest);

    /// <summary>The same of an opening and a close.</summary>
    /// <param name="opens">When it opens.</param>
    /// <param name="closes">When it may close; null where it does not.</param>
    /// <returns>True where no time can be told to people.</returns>
    public static bool IsTooShortFor(TimeBounds opens, DateTimeOffset? closes) => closes <= opens.Latest;

    /// <summary>
    /// A window is closing in its last third, but for no longer than half an hour; where it never opens, or closes before anybody can rely on its being open,
    /// in its last half hour.
    /// Source (choice): time to act, not to worry.
    /// </summary>
    /// <param name="opens">When it opens.</param>
    /// <param name="closes">When it closes.</param>
    /// <returns>From when it is closing; null where it never closes.</returns>
    public static DateTimeOffset? ClosingFrom(DateTimeOffset? opens, DateTimeOffset? closes)
    {
        if (closes is not { } to)
        {
            return null;
        }

        TimeSpan third = opens is { } from && from < to ? (to - from) / 3 : LongestClosing;
        return to - (third < LongestClosing ? third : LongestClosing);
    }

    /// <inheritdoc/>
    public bool Equals(Window? other) =>
        other is not null && (Stage, OpensAt, ClosesAt, State) == (other.Stage, other.OpensAt, other.ClosesAt, other.State)
        && JudgeByEye == other.JudgeByEye && Beyond == other.Beyond && IfMended == other.IfMended && Because.SequenceEqual(other.Because);

    /// <inheritdoc/>
    public override int GetHashCode() => HashCode.Combine(Stage, OpensAt, ClosesAt, State);
}

/// <summary>The windows of a coat, in the order it passes them.</summary>
public enum WindowStage
{
    /// <summary>From the wipe until it may be levelled.</summary>
    Flash,

    /// <summary>From the first to the last safe moment to level.</summary>
    LevelOff,

    /// <summary>From the first to the last safe moment for the next layer.</summary>
    Recoat,

    /// <summary>No water.</summary>
    KeepDry,

    /// <summary>No washing.</summary>
    NoWash,

    /// <summary>Until the coat has all its resistance.</summary>
    FullCure,
}

/// <summary>Where a coat is in a window.</summary>
public enum WindowState
{
    /// <summary>Not open yet.</summary>
    Upcoming,

    /// <summary>Open.</summary>
    Open,

    /// <summary>About to close.</summary>
    Closing,

    /// <summary>Over, as it should be.</summary>
    Done,

    /// <summary>Over without its act, or with it too late; for recoat also with it too early.</summary>
    Missed,
}
