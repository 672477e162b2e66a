using CureWatch.Curing;
using CureWatch.Products;
using CureWatch.TimeWindows;

namespace CureWatch.Planning;

/// <summary>The look under light after a pass is levelled: what only shows once the coat has settled can still be worked out then.</summary>
/// <remarks>High spots harden 30 to 60 minutes after the wipe. Common practice, no source; the two times are our choice inside it.</remarks>
public static class SecondLook
{
    /// <summary>How long after levelling the look is worth something. Source (choice): what shows later than this shows from here on.</summary>
    public static readonly TimeSpan From = TimeSpan.FromMinutes(20);

    /// <summary>How long after levelling it is due at the latest. Source (choice): the middle of the 30 to 60 minutes.</summary>
    public static readonly TimeSpan By = TimeSpan.FromMinutes(45);

    /// <summary>Whether a coat still waits for its second look.</summary>
    /// <param name="story">The story of its surface.</param>
    /// <param name="coat">The coat.</param>
    /// <param name="laws">The laws of its product.</param>
    /// <returns>
    /// False where it was not levelled, lies under another layer, was polished off, was looked at late enough, or is one that may be left longer.
    /// </returns>
    public static bool IsAwaited(SurfaceStory story, Coat coat, CoatLaws laws) =>
        coat is { LevelledAt: { } levelled, CoveredAt: null, EndedAt: null }
        && laws.IfMissed == IfMissed.Hold
        && !story.Inspections.Any(i => i.At >= Begins(coat, levelled) && i.Covers(coat.Layer, coat.Section));

    /// <summary>When a levelled coat may be looked at: counted from its last working, levelling or rework.</summary>
    /// <param name="coat">The coat.</param>
    /// <param name="levelled">When it was levelled.</param>
    /// <returns>The instant.</returns>
    public static DateTimeOffset Begins(Coat coat, DateTimeOffset levelled) => LastWorked(coat, levelled) + From;

    /// <summary>When a levelled coat has to have been looked at.</summary>
    /// <param name="coat">The coat.</param>
    /// <param name="levelled">When it was levelled.</param>
    /// <returns>The instant.</returns>
    public static DateTimeOffset Ends(Coat coat, DateTimeOffset levelled) => LastWorked(coat, levelled) + By;

    private static DateTimeOffset LastWorked(Coat coat, DateTimeOffset levelled) => coat.ReworkedAt > levelled ? coat.ReworkedAt.Value : levelled;
}
