namespace CureWatch.Planning;

/// <summary>When a section may be levelled, counted from the end of its application.</summary>
/// <remarks>
/// Two bounds of uncertain times may cross, so <see cref="To"/> may lie before <see cref="From"/>: such a window is never open.
/// </remarks>
public sealed record FlashWindow
{
    /// <summary>Takes a window.</summary>
    /// <param name="from">Earliest start of levelling, zero to 365 days. Use the slow bound of the flash time.</param>
    /// <param name="to">Last safe moment, zero to 365 days. Use the fast bound of the closing time.</param>
    /// <param name="endsInside">Whether levelling has to end by <paramref name="to"/>, not only start.</param>
    /// <exception cref="ArgumentOutOfRangeException">A time is outside its range.</exception>
    public FlashWindow(TimeSpan from, TimeSpan to, bool endsInside)
    {
        PlanningRange.DemandNotNegative(from, nameof(from));
        PlanningRange.DemandNotNegative(to, nameof(to));
        (From, To, EndsInside) = (from, to, endsInside);
    }

    /// <summary>Earliest start of levelling after the section's application.</summary>
    public TimeSpan From { get; }

    /// <summary>Last safe moment after the section's application.</summary>
    public TimeSpan To { get; }

    /// <summary>Whether levelling has to end by <see cref="To"/>, not only start.</summary>
    public bool EndsInside { get; }

    internal TimeSpan LastStart(TimeSpan level) => EndsInside ? To - level : To;
}
