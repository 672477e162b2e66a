namespace CureWatch.Warnings;

/// <summary>How one kind of warning is managed, in the terms of IEC 62682 and ISA-18.2.</summary>
/// <param name="Kind">The kind.</param>
/// <param name="Priority">1 is the most urgent of three.</param>
/// <param name="OnDelay">How long the cause must last before it is told.</param>
/// <param name="OffDelay">How long it must be gone before the warning is over.</param>
/// <param name="Deadband">How far back inside the limit counts as gone, in the unit of what is measured.</param>
/// <param name="LeastLooks">How many measurements must bear it out.</param>
/// <param name="Cause">What brings it about.</param>
/// <param name="Consequence">What happens if nobody acts.</param>
/// <param name="Action">What to do.</param>
/// <remarks>
/// Source (choice): delays and deadbands are ours, long enough for a noisy probe on its limit and a door opened once, short enough to act.
/// Limits are the product sheet's.
/// </remarks>
public sealed record AlarmRule(
    WarningKind Kind,
    int Priority,
    TimeSpan OnDelay,
    TimeSpan OffDelay,
    double Deadband,
    int LeastLooks,
    string Cause,
    string Consequence,
    string Action)
{
    private const string DoorsShut = "Keep doors shut; use only the equipment of this bay.";

    private static readonly AlarmRule[] Rules =
    [
        Climate(WarningKind.Condensing, 1, onMinutes: 2, offMinutes: 10, deadband: 1, looks: 1,
            "The coldest panel is at or below the condensation temperature of the air.",
            "Water spots and a spoiled cure; the car is held.",
            "Warm the panels or dry the air without unvented burners; look at every coat that has to stay dry."),
        Climate(WarningKind.HumidityHigh, 2, 10, 15, 2, 2,
            "The air is moister than the sheet allows.", "Hazing, and a coat that grabs too soon.", $"Stop washing next door, extract or dehumidify. {DoorsShut}"),
        Climate(WarningKind.HumidityLow, 3, 10, 15, 2, 2,
            "The air is drier than the sheet allows.", "The cure slows or stops.", $"Humidify, or heat less. {DoorsShut}"),
        Climate(WarningKind.PanelCold, 2, 10, 15, 1, 2,
            "A panel is colder than the sheet allows.", "The cure slows; condensation comes near.", $"Heat with what is fixed to the building. {DoorsShut}"),
        Climate(WarningKind.PanelHot, 2, 5, 15, 1, 2,
            "A panel is hotter than the sheet allows.", "Flash and level-off shorten; film and plastic suffer.", "Shade it, move the lamp away, let it cool."),
        Climate(WarningKind.CureStalled, 3, 30, 30, 0.05, 2,
            "The climate earns the coat next to nothing.", "The car will not be ready when promised.", "Warm the bay and add moisture; tell whoever promised."),
        Exact(WarningKind.LevelDue, 1, "The coat has flashed.", "It grabs.", "Level it now."),
        Exact(WarningKind.LevelClosing, 1, "Level-off is about to close.", "Late costs a polish.", "Level it before anything else."),
        Exact(WarningKind.LevelMissed, 1, "The last safe moment to level has passed.", "High spots set hard.", "Re-wet and level now, then inspect."),
        Exact(WarningKind.RecoatClosing, 2, "Recoat is about to close.", "The next layer will not bond as it should.", "Apply the next layer."),
        Exact(WarningKind.RecoatMissed, 2, "Recoat has closed.", "The next layer will not bond as it should.", "See the sheet before applying another layer."),
        Exact(WarningKind.Wetted, 1, "Water touched a coat that has to stay dry.", "Water marks.", "Dry it now without rubbing, tell when it is dry, inspect."),
        new(WarningKind.ProbeSilent, 2, TimeSpan.Zero, TimeSpan.FromMinutes(10), 0, 1,
            "A probe has missed three readings.", "Nothing it watches is counted as fine.", "Look at its battery, its place and the network."),
    ];

    /// <summary>The rule of a kind.</summary>
    /// <param name="kind">The kind.</param>
    /// <returns>The rule.</returns>
    public static AlarmRule Of(WarningKind kind) => Rules[(int)kind];

    private static AlarmRule Climate(
        WarningKind kind, int priority, int onMinutes, int offMinutes, double deadband, int looks, string cause, string consequence, string action) =>
        new(kind, priority, TimeSpan.FromMinutes(onMinutes), TimeSpan.FromMinutes(offMinutes), deadband, looks, cause, consequence, action);

    private static AlarmRule Exact(WarningKind kind, int priority, string cause, string consequence, string action) =>
        new(kind, priority, TimeSpan.Zero, TimeSpan.Zero, 0, 1, cause, consequence, action);
}
