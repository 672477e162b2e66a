namespace CureWatch.Tests.Planning;

/// <summary>One person's pass, step by step in whole ticks: apply every section, change tools, level in order, change back.</summary>
internal sealed record PassSimulation(long WorstWait, long Idle, long Ends)
{
    public static PassSimulation Of(long sections, long apply, long level, long changeOver, long flashFrom)
    {
        var appliedAt = new Queue<long>();
        long now = 0, worstWait = 0, idle = 0;
        for (long section = 0; section < sections; section++)
        {
            now += apply;
            appliedAt.Enqueue(now);
        }

        now += changeOver;
        foreach (long applied in appliedAt)
        {
            if (now < applied + flashFrom)
            {
                idle += applied + flashFrom - now;
                now = applied + flashFrom;
            }

            worstWait = Math.Max(worstWait, now - applied);
            now += level;
        }

        return new PassSimulation(worstWait, idle, now + changeOver);
    }

    /// <summary>The longest pass whose every wait fits, found by trying one section more each time; null if not even one fits.</summary>
    public static (long Sections, PassSimulation Pass)? Longest(long apply, long level, long changeOver, long flashFrom, long lastStart)
    {
        (long, PassSimulation)? best = null;
        for (long sections = 1; ; sections++)
        {
            PassSimulation pass = Of(sections, apply, level, changeOver, flashFrom);
            if (pass.WorstWait > lastStart)
            {
                return best;
            }

            best = (sections, pass);
        }
    }
}
