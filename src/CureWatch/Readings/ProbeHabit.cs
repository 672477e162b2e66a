namespace CureWatch.Readings;

/// <summary>How long a probe is used to repeat one value, learnt from the probe itself.</summary>
/// <param name="Value">The value it repeats now.</param>
/// <param name="Since">Since when.</param>
/// <param name="Changes">How often its value has changed.</param>
/// <param name="LongestRun">The longest it repeated a value before changing it, frozen runs apart.</param>
/// <param name="HeardAt">When it last told anything, believed or not; silence is no repetition.</param>
/// <param name="SilentAfter">How long without a word is silence.</param>
/// <remarks>
/// A fixed limit would call a quiet bay frozen or a broken probe quiet. So a probe that is known to change (ten changes seen) is frozen
/// when it repeats itself for an hour and for twelve times its longest run so far. Source (choice). A probe that never changed has no
/// habit to judge by: it is believed.
/// </remarks>
internal sealed record ProbeHabit(
    (double, double, double) Value, DateTimeOffset Since, int Changes, TimeSpan LongestRun, DateTimeOffset HeardAt, TimeSpan SilentAfter)
{
    private const int ChangesToKnow = 10;
    private const double RunsToFreeze = 12;
    private static readonly TimeSpan ShortestFreeze = TimeSpan.FromHours(1);

    /// <summary>From when on what it repeats is doubted. Source (choice): a third of that, and half an hour.</summary>
    private const double RunsToDoubt = 4;
    private static readonly TimeSpan ShortestDoubt = TimeSpan.FromMinutes(30);

    /// <summary>Whether it repeats itself for so long that it is doubted, and not yet refused.</summary>
    /// <param name="shortest">How long a still bay may leave the probe at one value.</param>
    public bool IsUnusual(TimeSpan shortest) => Changes >= ChangesToKnow && HeardAt - Since is var run
        && run > ShortestDoubt && run > shortest && run > RunsToDoubt * LongestRun;

    private TimeSpan Limit(TimeSpan shortest) => TimeSpan.FromTicks(
        Math.Max((RunsToFreeze * LongestRun).Ticks, Math.Max(ShortestFreeze.Ticks, shortest.Ticks)));

    public static ProbeHabit Of(DateTimeOffset at, (double, double, double) value, TimeSpan silentAfter) =>
        new(value, at, 0, TimeSpan.Zero, at, silentAfter);

    public bool IsFrozenAt(DateTimeOffset at, (double, double, double) value, TimeSpan shortest) =>
        value == Value && Changes >= ChangesToKnow && (WasSilentUntil(at) ? HeardAt : at) - Since > Limit(shortest);

    public ProbeHabit After(DateTimeOffset at, (double, double, double) value, TimeSpan shortest)
    {
        if (WasSilentUntil(at) && !(value == Value && IsFrozenAt(HeardAt, value, shortest)))
        {
            return this with { Value = value, Since = at, HeardAt = at };
        }

        if (value == Value)
        {
            return this with { HeardAt = at };
        }

        TimeSpan run = at - Since;
        bool wasFrozen = Changes >= ChangesToKnow && run > Limit(shortest);
        return this with
        {
            Value = value,
            Since = at,
            Changes = Changes + 1,
            LongestRun = wasFrozen || run < LongestRun ? LongestRun : run,
            HeardAt = at,
        };
    }

    private bool WasSilentUntil(DateTimeOffset at) => at - HeardAt > SilentAfter;
}
