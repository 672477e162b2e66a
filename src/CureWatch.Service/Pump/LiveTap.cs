using CureWatch.Curing;
using CureWatch.Readings;
using CureWatch.Service.Settings;

namespace CureWatch.Service.Pump;

/// <summary>Fits a tap's instants to our clock: a phone's may run a little ahead, and nothing was told after it arrived.</summary>
internal static class LiveTap
{
    /// <param name="tap">The tap as it was read.</param>
    /// <param name="saysWhenTold">Whether it says itself when it was told; else it is told now.</param>
    /// <param name="now">The present.</param>
    /// <param name="at">Where its instant stands, for a fault.</param>
    /// <returns>The tap; null where it claims to be done in the future.</returns>
    public static Tap? Of(Tap tap, bool saysWhenTold, DateTimeOffset now, JsonCursor at)
    {
        if (IsAhead(tap, now))
        {
            at.Refuse($"no later than now, {UtcText.Of(now)}");
            return null;
        }

        return NotAfter(saysWhenTold ? tap : tap with { ReportedAt = now }, now);
    }

    /// <summary>Whether a tap claims to be done later than any clock can be ahead of ours.</summary>
    public static bool IsAhead(Tap tap, DateTimeOffset now) => IsAhead(tap.At, now);

    /// <summary>Whether an instant is later than any clock can be ahead of ours.</summary>
    public static bool IsAhead(DateTimeOffset at, DateTimeOffset now) => at - now > ProbeLog.ClockTolerance;

    /// <summary>The tap with nothing in it after an instant.</summary>
    public static Tap NotAfter(Tap tap, DateTimeOffset now) => tap with
    {
        At = Earlier(tap.At, now),
        StartedAt = tap.StartedAt is { } started ? Earlier(started, now) : null,
        ReportedAt = Earlier(tap.ReportedAt, now),
    };

    /// <summary>Whether a tap was only sent again: it says the same, whenever it arrived.</summary>
    /// <param name="before">The tap as it was taken down; it may have been cut to the instant it was told, and have got its batch.</param>
    /// <param name="again">The tap as it was read.</param>
    public static bool IsRetry(Tap before, Tap again) =>
        !IsAhead(again, before.ReportedAt)
        && before == NotAfter(again, before.ReportedAt) with { ReportedAt = before.ReportedAt, Batch = again.Batch ?? before.Batch };

    private static DateTimeOffset Earlier(DateTimeOffset a, DateTimeOffset b) => a < b ? a : b;
}
