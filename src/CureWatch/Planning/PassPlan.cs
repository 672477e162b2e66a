namespace CureWatch.Planning;

/// <summary>How many sections are coated before they are levelled, first coated first: by one person who turns back, or by two, one behind the other.</summary>
public abstract record PassPlan
{
    private PassPlan()
    {
    }

    /// <summary>A pass that keeps every section inside the window.</summary>
    /// <param name="Sections">Most sections in one pass, from 1.</param>
    /// <param name="WorstWait">
    /// Longest wait of a section from the end of its application to the start of its levelling; inside the window.
    /// </param>
    /// <param name="Idle">Time spent waiting for sections to flash.</param>
    /// <param name="PerPass">Time from the first wipe until ready for the next pass.</param>
    public sealed record Workable(long Sections, TimeSpan WorstWait, TimeSpan Idle, TimeSpan PerPass) : PassPlan;

    /// <summary>Two people of whom the second keeps up: there is no section at which to stop.</summary>
    /// <param name="WorstWait">How long every section waits; inside the window.</param>
    public sealed record Endless(TimeSpan WorstWait) : PassPlan;

    /// <summary>Not even one section can be kept inside the window.</summary>
    /// <param name="Because">What stands in the way.</param>
    /// <param name="ShortBy">How much later the window would have to close, above zero.</param>
    public sealed record Unworkable(PassObstacle Because, TimeSpan ShortBy) : PassPlan;

    /// <summary>Plans a pass.</summary>
    /// <param name="pace">How fast a section is worked; each time up to 365 days.</param>
    /// <param name="window">When a section may be levelled; each time up to 365 days.</param>
    /// <returns>The most sections that can be kept inside the window, or why there are none. Exact: no duration is rounded.</returns>
    /// <remarks>
    /// Equation, with a apply, l level, c change-over, f and g the first and last start of levelling after a section's application:
    /// none if max(f, c) > g; else N = 1 + ⌊(g − c)/max(a, l)⌋, and where l > a also N ≤ 1 + ⌊(g − f)/(l − a)⌋.
    /// Worst wait = max(f + (N − 1)·max(0, l − a), c + (N − 1)·max(a, l)); idle = max(0, f − c − (N − 1)·min(a, l));
    /// time per pass = N·(a + l) + 2c + idle.
    /// Two people: section i waits f + (i − 1)·max(0, l − a), so that there is no last one where l ≤ a, else N = 1 + ⌊(g − f)/(l − a)⌋; nobody
    /// changes over. Time per pass = a + f + (N − 1)·l + l.
    /// Source (law): own derivation for one worker, or two, on two tasks in the same order; equal to a step-by-step simulation on 100,000 random
    /// cases each in the tests.
    /// Edges: a wait of exactly f or g counts as inside.
    /// </remarks>
    public static PassPlan For(SectionPace pace, FlashWindow window)
    {
        long apply = pace.Apply.Ticks, level = pace.Level.Ticks, changeOver = ChangeOverTicks(pace);
        long first = window.From.Ticks, last = window.LastStart(pace.Level).Ticks;
        long soonest = Math.Max(first, changeOver);
        if (soonest > last)
        {
            return new Unworkable(Obstacle(pace, window), TimeSpan.FromTicks(soonest - last));
        }

        if (pace.People > 1)
        {
            return level <= apply ? new Endless(window.From) : ByTwo(pace, window, (last - first) / (level - apply));
        }

        long more = (last - changeOver) / Math.Max(apply, level);
        if (level > apply)
        {
            more = Math.Min(more, (last - first) / (level - apply));
        }

        long worstWait = Math.Max(first + (more * Math.Max(0, level - apply)), changeOver + (more * Math.Max(apply, level)));
        return new Workable(more + 1, TimeSpan.FromTicks(worstWait), TimeSpan.FromTicks(IdleTicks(pace, window, more)), Takes(pace, window, more + 1));
    }

    /// <summary>How long a pass takes from the first wipe until ready for the next.</summary>
    /// <param name="pace">How fast a section is worked.</param>
    /// <param name="window">When a section may be levelled.</param>
    /// <param name="sections">The sections of the pass, from 1, no more than can be kept inside the window.</param>
    /// <returns>The time, waiting for the first section to flash included.</returns>
    public static TimeSpan Takes(SectionPace pace, FlashWindow window, long sections) => pace.People > 1
        ? pace.Apply + window.From + ((sections - 1) * (pace.Apply > pace.Level ? pace.Apply : pace.Level)) + pace.Level
        : (sections * (pace.Apply + pace.Level)) + (2 * pace.ChangeOver) + TimeSpan.FromTicks(IdleTicks(pace, window, sections - 1));

    /// <summary>Who levels never waits after the first section, since levelling takes longer than applying.</summary>
    private static Workable ByTwo(SectionPace pace, FlashWindow window, long more) => new(
        more + 1, window.From + (more * (pace.Level - pace.Apply)), TimeSpan.Zero, Takes(pace, window, more + 1));

    private static long ChangeOverTicks(SectionPace pace) => pace.People > 1 ? 0 : pace.ChangeOver.Ticks;

    private static long IdleTicks(SectionPace pace, FlashWindow window, long more) => Math.Max(
        0, window.From.Ticks - pace.ChangeOver.Ticks - (more * Math.Min(pace.Apply.Ticks, pace.Level.Ticks)));

    private static PassObstacle Obstacle(SectionPace pace, FlashWindow window) =>
        window.From > window.To ? PassObstacle.WindowNeverOpen
        : ChangeOverTicks(pace) > window.To.Ticks ? PassObstacle.ChangeOverTooLong
        : PassObstacle.LevellingTooLong;
}
