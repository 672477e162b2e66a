namespace CureWatch.Tests.Planning;

/// <summary>Two people's pass in whole ticks: one applies without a pause, the other levels in the same order, each section once it has flashed.</summary>
internal static class PairSimulation
{
    /// <returns>The sections whose every wait fits, no more than were asked for, the worst wait of them, and when the last is levelled.</returns>
    public static (long Sections, long WorstWait, long Ends) Of(long most, long apply, long level, IReadOnlyList<long> flashFrom, IReadOnlyList<long> lastStart)
    {
        long free = 0, worstWait = 0, ends = 0;
        for (int section = 0; section < most; section++)
        {
            long applied = (section + 1) * apply;
            long begun = Math.Max(free, applied + flashFrom[section % flashFrom.Count]);
            if (begun - applied > lastStart[section % lastStart.Count])
            {
                return (section, worstWait, ends);
            }

            (free, worstWait, ends) = (begun + level, Math.Max(worstWait, begun - applied), begun + level);
        }

        return (most, worstWait, ends);
    }
}
