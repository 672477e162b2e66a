namespace CureWatch.Warnings;

/// <summary>Which warnings are given ahead of which.</summary>
public static class Foreseen
{
    /// <summary>The warning that is given ahead of another.</summary>
    /// <param name="kind">What happens.</param>
    /// <returns>What is told before; null where nothing is.</returns>
    public static WarningKind? AheadOf(WarningKind kind) => kind switch
    {
        WarningKind.Condensing => WarningKind.CondensingAhead,
        WarningKind.HumidityHigh => WarningKind.HumidityHighAhead,
        WarningKind.HumidityLow => WarningKind.HumidityLowAhead,
        WarningKind.PanelCold => WarningKind.PanelColdAhead,
        WarningKind.PanelHot => WarningKind.PanelHotAhead,
        WarningKind.CureStalled => WarningKind.CureStalledAhead,
        _ => null,
    };

    /// <summary>Whether a warning tells of what has not happened yet.</summary>
    /// <param name="kind">Its kind.</param>
    /// <returns>True where it tells how likely something is.</returns>
    public static bool IsAhead(WarningKind kind) => kind is >= WarningKind.CondensingAhead and <= WarningKind.CureStalledAhead;
}
