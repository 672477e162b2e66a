namespace CureWatch.Readings;

/// <summary>A probe's samples in order of measuring, though they may come late.</summary>
internal static class SampleTrail
{
    /// <summary>When the sample before an instant was measured; where there is none, the instant itself.</summary>
    public static DateTimeOffset InstantBefore(this Trail<Sample> trail, DateTimeOffset at)
    {
        int before = trail.CountBefore(at);
        return before > 0 ? trail[before - 1].At : at;
    }

    /// <summary>How many were measured before an instant: nearly always it is about the newest, or the one before.</summary>
    public static int CountBefore(this Trail<Sample> trail, DateTimeOffset at) => trail.Count is var count && (count == 0 || trail.Last.At < at) ? count
        : count > 1 && trail[count - 2].At < at ? count - 1
        : trail.SearchBefore(at);

    /// <summary>How many were measured by an instant.</summary>
    public static int CountUpTo(this Trail<Sample> trail, DateTimeOffset at) => trail.Count is var count && (count == 0 || trail.Last.At <= at) ? count
        : count > 1 && trail[count - 2].At <= at ? count - 1
        : trail.SearchUpTo(at);

    /// <summary>Whether something was measured at an instant.</summary>
    public static bool Has(this Trail<Sample> trail, DateTimeOffset at) => trail.CountBefore(at) is var before && before < trail.Count && trail[before].At == at;

    /// <summary>Puts a sample in its place.</summary>
    public static Trail<Sample> Insert(this Trail<Sample> trail, Sample sample)
    {
        int before = trail.CountBefore(sample.At);
        Trail<Sample> longer = trail.Take(before).Append(sample);
        for (int i = before; i < trail.Count; i++)
        {
            longer = longer.Append(trail[i]);
        }

        return longer;
    }

    /// <summary>Lets go of what was measured long ago, and keeps what is old less closely.</summary>
    public static Trail<Sample> Thin(this Trail<Sample> trail, Retention retention, Func<DateTimeOffset, bool> isKept)
    {
        Trail<Sample> asked = trail.AskedFor(retention);
        int old = asked.CountUpTo(retention.Fresh);
        int same = 0;
        while (same < asked.Count && IsNeeded(same, same > 0 ? asked[same - 1].At : null))
        {
            same++;
        }

        Trail<Sample> thin = asked.Take(same);
        for (int i = same; i < asked.Count; i++)
        {
            thin = IsNeeded(i, thin.Last.At) ? thin.Append(asked[i]) : thin;
        }

        return thin;

        bool IsNeeded(int index, DateTimeOffset? kept) =>
            kept is null || index + 1 >= old || asked[index + 1].At - kept > retention.Spacing || isKept(asked[index].At);
    }

    private static Trail<Sample> AskedFor(this Trail<Sample> trail, Retention retention)
    {
        int first = Math.Max(0, trail.CountUpTo(retention.From) - 1);
        if (first == 0)
        {
            return trail;
        }

        var asked = new Trail<Sample>();
        for (int i = 0; i < trail.Count; i++)
        {
            bool isAsked = i >= first || retention.Asked.Any(a => trail[i + 1].At > a.From && (i == 0 || trail[i - 1].At <= a.To));
            asked = isAsked ? asked.Append(trail[i]) : asked;
        }

        return asked;
    }

    private static int SearchBefore(this Trail<Sample> trail, DateTimeOffset at) => trail.CountWhile(at, static (in s, border) => s.At < border);

    private static int SearchUpTo(this Trail<Sample> trail, DateTimeOffset at) => trail.CountWhile(at, static (in s, border) => s.At <= border);
}
