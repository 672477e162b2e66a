namespace CureWatch.Planning;

/// <summary>How fast a section is worked, and by how many people.</summary>
public sealed record SectionPace
{
    /// <summary>Most people a pass is planned for: one applies, one levels.</summary>
    public const int MostPeople = 2;

    /// <summary>Takes a pace.</summary>
    /// <param name="apply">Time to apply one section, above zero, up to 365 days.</param>
    /// <param name="level">Time to level one section, above zero, up to 365 days.</param>
    /// <param name="changeOver">Time to change from the applicator to the cloth, or back; zero to 365 days.</param>
    /// <param name="people">One person who does both, or two of whom one applies and the other levels behind.</param>
    /// <exception cref="ArgumentOutOfRangeException">A time or the number of people is outside its range.</exception>
    public SectionPace(TimeSpan apply, TimeSpan level, TimeSpan changeOver, int people = 1)
    {
        PlanningRange.DemandAboveZero(apply, nameof(apply));
        PlanningRange.DemandAboveZero(level, nameof(level));
        PlanningRange.DemandNotNegative(changeOver, nameof(changeOver));
        if (people is not (>= 1 and <= MostPeople))
        {
            throw new ArgumentOutOfRangeException(nameof(people), people, $"Expected 1 or {MostPeople}.");
        }

        (Apply, Level, ChangeOver, People) = (apply, level, changeOver, people);
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

    /// <summary>Time to change from the applicator to the cloth, or back; two people each keep what they have in hand.</summary>
    public TimeSpan ChangeOver { get; }

    /// <summary>How many people work: 1 or 2.</summary>
    public int People { get; }

    /// <summary>The same hands, more or fewer of them.</summary>
    /// <param name="people">One or two.</param>
    /// <returns>The pace.</returns>
    public SectionPace With(int people) => people == People ? this : new SectionPace(Apply, Level, ChangeOver, people);
}
