namespace CureWatch.TimeWindows;

/// <summary>When something happens: 5, 50 and 95 % of what may be, gaps in the readings counted against the shop.</summary>
/// <param name="Earliest">Not likely before; null where it is never reached in this climate.</param>
/// <param name="Likely">As likely before as after; null where it is never reached in this climate.</param>
/// <param name="Latest">Not likely after; null where it is never reached in this climate.</param>
public sealed record TimeBounds(DateTimeOffset? Earliest, DateTimeOffset? Likely, DateTimeOffset? Latest)
{
    /// <summary>An instant that is known.</summary>
    /// <param name="at">The instant.</param>
    /// <returns>The same instant three times.</returns>
    public static TimeBounds Known(DateTimeOffset at) => new(at, at, at);

    /// <summary>The earlier of two, in each bound.</summary>
    /// <param name="other">The other.</param>
    /// <returns>The earlier; what is never reached is later than anything.</returns>
    public TimeBounds OrEarlier(TimeBounds other) => new(
        Earlier(Earliest, other.Earliest), Earlier(Likely, other.Likely), Earlier(Latest, other.Latest));

    /// <summary>The later of two, in each bound.</summary>
    /// <param name="other">The other.</param>
    /// <returns>The later; what is never reached is later than anything.</returns>
    public TimeBounds OrLater(TimeBounds other) => new(
        Later(Earliest, other.Earliest), Later(Likely, other.Likely), Later(Latest, other.Latest));

    /// <summary>As wide as this and another together; the likely stays.</summary>
    /// <param name="other">The other.</param>
    /// <returns>The earlier of the earliest, the later of the latest.</returns>
    public TimeBounds WidenedBy(TimeBounds other) => this with { Earliest = Earlier(Earliest, other.Earliest), Latest = Later(Latest, other.Latest) };

    private static DateTimeOffset? Earlier(DateTimeOffset? a, DateTimeOffset? b) => a is null || b < a ? b : a;

    private static DateTimeOffset? Later(DateTimeOffset? a, DateTimeOffset? b) => a is null || b is null ? null : b > a ? b : a;
}
