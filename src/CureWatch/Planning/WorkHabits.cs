namespace CureWatch.Planning;

/// <summary>How a shop gets panels ready and how fast its people work: what "can I start?" reckons with.</summary>
/// <param name="PanelWipeValid">How long a wipe-down counts.</param>
/// <param name="WipeDries">How long the solvent of a wipe-down needs to leave.</param>
/// <param name="DripsFor">How long edges and trim go on dripping after a wet surface was dried.</param>
/// <param name="Pace">How fast one person works a section.</param>
public sealed record WorkHabits(TimeSpan PanelWipeValid, TimeSpan WipeDries, TimeSpan DripsFor, SectionPace Pace)
{
    /// <summary>
    /// How cold a car may come in [°C], where nobody knows how cold one was. Source (choice): a night of hard frost; a shop where cars come colder, or never as
    /// cold, states its own.
    /// </summary>
    public double ColdestArrivalC { get; init; } = -15;

    /// <summary>The habits of a shop that states none. Source (choice): common practice, no source; a shop sets its own.</summary>
    public static WorkHabits Usual { get; } = new(
        TimeSpan.FromMinutes(45),
        TimeSpan.FromMinutes(3),
        TimeSpan.FromMinutes(30),
        SectionPace.Usual);
}
