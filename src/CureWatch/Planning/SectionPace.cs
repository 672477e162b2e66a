namespace CureWatch.Planning;

/// <summary>How fast one person works a section.</summary>
public sealed record SectionPace
{
    /// <summary>Takes a pace.</summary>
    /// <param name="apply">Time to apply one section, above zero, up to 365 days.</param>
    /// <param name="level">Time to level one section, above zero, up to 365 days.</param>
    /// <param name="changeOver">Time to change from the applicator to the cloth, or back; zero to 365 days.</param>
    /// <exception cref="ArgumentOutOfRangeException">A time is outside its range.</exception>
    public SectionPace(TimeSpan apply, TimeSpan level, TimeSpan changeOver)
    {
        PlanningRange.DemandAboveZero(apply, nameof(apply));
        PlanningRange.DemandAboveZero(level, nameof(level));
        PlanningRange.DemandNotNegative(changeOver, nameof(changeOver));
        (Apply, Level, ChangeOver) = (apply, level, changeOver);
    }

    /// <summary>
    /// The pace of a shop that says none: a minute to apply, 45 s to level, 10 s to change over. Source (choice): a section of half a square metre;
    /// common practice, no source.
    /// </summary>
    public static SectionPace Usual { get; } = new(TimeSpan.FromMinutes(1), TimeSpan.FromSeconds(45), TimeSpan.FromSeconds(10));

    /// <summary>Time to apply one section.</summary>
    public TimeSpan Apply { get; }

    /// <summary>Time to level one section.</summary>
    public TimeSpan Level { get; }

    /// <summary>Time to change from the applicator to the cloth, or back.</summary>
    public TimeSpan ChangeOver { get; }
}
