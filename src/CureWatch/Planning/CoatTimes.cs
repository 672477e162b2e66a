using CureWatch.Curing;
using CureWatch.TimeWindows;

namespace CureWatch.Planning;

/// <summary>How long a coat begun now would take in the climate from now on: forecast where its bay is, else held.</summary>
/// <param name="HasToBeLevelled">Whether there is anything to level.</param>
/// <param name="Flash">When a section may be levelled; null where there is nothing to level, or no time can be counted on.</param>
/// <param name="RecoatFrom">From the levelling until the next layer surely may go on; null where the sheet or this climate gives no time.</param>
/// <param name="RecoatBy">From a section's last wipe, as if it were levelled at once, until the next layer must be on it, at the soonest; null where the sheet gives none.</param>
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
            levelOff is { OpensAt.Latest: not null, ClosesAt.Earliest: { } to } ? FlashOf(Opening(levelOff, applied), to - applied) : null,
            after.Recoat?.OpensAt.Latest - applied,
            after.Recoat?.ClosesAt?.Earliest - applied,
            after.KeepDry?.ClosesAt is { } dry ? new KeepDryTimes(dry.Earliest - applied, dry.Likely - applied, dry.Latest - applied) : null);
    }

    /// <summary>When the layer over a layer has to be begun, so that its first section is on in time.</summary>
    /// <param name="begun">The first wipe of the layer below: a section takes as long to wipe on in both.</param>
    /// <returns>The instant; null where that does not matter.</returns>
    public DateTimeOffset? OverBy(DateTimeOffset begun) => begun + RecoatBy;

    /// <summary>How many sections can be coated before turning back to level them.</summary>
    /// <param name="pace">How fast a section is worked.</param>
    /// <returns>From 1; one where levelling cannot be timed, and any number where there is nothing to level.</returns>
    public long SectionsPerPass(SectionPace pace) =>
        !HasToBeLevelled ? long.MaxValue
        : Flash is null ? 1
        : PassPlan.For(pace, Flash) switch
        {
            PassPlan.Workable pass => pass.Sections,
            PassPlan.Endless => long.MaxValue,
            _ => 1,
        };

    /// <summary>
    /// A pass waits for the flash by its upper 90 % bound; where the window is to be judged by eye, by that of the window, so that both say so.
    /// </summary>
    /// <remarks>
    /// Equation: f90 = f50·(f95/f50)^(z90/z95), as a flash time is normal in its logarithm. Its end stays the window's own fast bound, 5 %: past it
    /// level-off counts as missed, and a pass that reckoned with the tenth would plan holds.
    /// </remarks>
    private static TimeSpan Opening(Window levelOff, DateTimeOffset applied)
    {
        TimeSpan latest = levelOff.OpensAt.Latest!.Value - applied;
        return !levelOff.JudgeByEye && levelOff.OpensAt.Likely - applied is { } likely && likely > TimeSpan.Zero && latest > likely
            ? likely * Math.Pow(latest / likely, NinetyOfNinetyFive)
            : latest;
    }

    /// <summary>z90/z95 of the standard normal distribution [1]. Source (law): 1.281552/1.644854.</summary>
    private const double NinetyOfNinetyFive = 1.2815515655446004 / 1.6448536269514722;

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
