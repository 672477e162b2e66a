namespace CureWatch.Panels;

/// <summary>A time in which a lamp heats a surface.</summary>
/// <param name="From">When it was switched on.</param>
/// <param name="To">When it was switched off, or the surface had cooled back; null where that is to come.</param>
public sealed record LampTime(DateTimeOffset From, DateTimeOffset? To)
{
    /// <summary>Whether an instant lies in it.</summary>
    /// <param name="instant">The instant.</param>
    /// <returns>True from its start on, and no more at its end.</returns>
    public bool Covers(DateTimeOffset instant) => instant >= From && !(instant >= To);
}
