namespace CureWatch.Panels;

/// <summary>A stretch of time in which something lasted: water on a panel, a lamp over it, nobody who measures.</summary>
/// <param name="From">Its start.</param>
/// <param name="To">Its end; null where that is to come.</param>
public sealed record Spell(DateTimeOffset From, DateTimeOffset? To)
{
    /// <summary>Whether an instant lies in it.</summary>
    /// <param name="instant">The instant.</param>
    /// <returns>True from its start on, and no more at its end.</returns>
    public bool Covers(DateTimeOffset instant) => instant >= From && !(instant >= To);
}
