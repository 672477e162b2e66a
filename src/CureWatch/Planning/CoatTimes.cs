using CureWatch.Curing;
using CureWatch.TimeWindows;

namespace CureWatch.Planning;

/// <summary>How long a coat begun now would take in the climate from now on: forecast where its bay is, else held.</summary>
/// <param name="HasToBeLevelled">Whether there is anything to level.</param>
/// <param name="Flash">When a section may be levelled; null where there is nothing to level, or no time can be counted on.</param>
/// <param name="RecoatFrom">From the levelling until the next layer surely may go on; null where the sheet or this climate gives no time.</param>
/// <param name="RecoatBy">From the levelling until the next layer must be on, at the soonest; null where the sheet gives none.</param>
/// <param name="KeepDry">From the levelling until water may touch it; null where the sheet gives none.</param>
public sealed record CoatTimes(bool HasToBeLevelled, FlashWindow? Flash, TimeSpan? RecoatFrom, TimeSpan? RecoatBy, KeepDryTimes? KeepDry)
{
    /// <summary>Looks at a coat as if it were begun now.</summary>
    /// <param name="surface">The surface.</param>
    /// <param name="layer">The layer.</param>
    /// <param name="pace">How fast a section is worked.</param>
    /// <param name="now">The present.</param>
    /// <param name="windowsOf">The windows of a coat in the climate from now on.</param>
    /// <returns>The times.</returns>
    public static CoatTimes Of(Surface surface, int layer, SectionPace pace, DateTimeOffset now, Func<Coat, CoatWindows> windowsOf)
    {
        DateTimeOffset applied = now + pace.Apply;
        var coat = new Coat(surface, layer, 1, now, applied);
        Window? levelOff = windowsOf(coat).LevelOff;
        CoatWindows after = windowsOf(coat with { LevelledAt = applied });
        return new CoatTimes(
            levelOff is not null,
            levelOff is { OpensAt.Latest: { } from, ClosesAt.Earliest: { } to } ? FlashOf(from - applied, to - applied) : null,
            after.Recoat?.OpensAt.Latest - applied,
            after.Recoat?.ClosesAt?.Earliest - applied,
            after.KeepDry?.ClosesAt is { } dry ? new KeepDryTimes(dry.Earliest - applied, dry.Likely - applied, dry.Latest - applied) : null);
    }

    /// <summary>How many sections can be coated before turning back to level them.</summary>
    /// <param name="pace">How fast a section is worked.</param>
    /// <returns>From 1; one where levelling cannot be timed, and any number where there is nothing to level.</returns>
    public long SectionsPerPass(SectionPace pace) =>
        !HasToBeLevelled ? long.MaxValue
        : Flash is { } flash && PassPlan.For(pace, flash) is PassPlan.Workable pass ? pass.Sections
        : 1;

    private static FlashWindow? FlashOf(TimeSpan from, TimeSpan to) =>
        to >= TimeSpan.Zero && to <= PlanningRange.Longest && from <= PlanningRange.Longest ? new FlashWindow(from, to, endsInside: true) : null;
}

/// <summary>How long a coat has to stay dry after its levelling; null where it is never reached in this climate.</summary>
/// <param name="Earliest">Not likely less.</param>
/// <param name="Likely">As likely less as more.</param>
/// <param name="Latest">Not likely more.</param>
public sealed record KeepDryTimes(TimeSpan? Earliest, TimeSpan? Likely, TimeSpan? Latest)
{
    /// <summary>When it ends.</summary>
    /// <param name="levelled">When the coat is levelled.</param>
    /// <returns>The bounds.</returns>
    public TimeBounds From(DateTimeOffset levelled) => new(levelled + Earliest, levelled + Likely, levelled + Latest);
}
