namespace CureWatch.Service.Settings;

/// <summary>What a sheet's numbers may be. Source (choice): wide enough for any sheet, narrow enough to catch a slip of the pen.</summary>
internal static class SheetRanges
{
    /// <summary>The climates of rows and reference; up to where the vapour pressure formula holds.</summary>
    public static NumberRange ClimateC { get; } = NumberRange.From(-30, 100, "°C");

    public static NumberRange PanelC { get; } = NumberRange.From(-30, 200, "°C");

    public static NumberRange HumidityPct { get; } = NumberRange.Between(0, 100, "% RH");

    /// <summary>A waterborne product dries by what the air can still take up, and at 95 % that is next to nothing to measure by.</summary>
    public static NumberRange WaterborneReferencePct { get; } = NumberRange.Between(0, 95, "% RH for a waterborne product");

    public static NumberRange HumidityLimitPct { get; } = NumberRange.From(0, 100, "% RH");

    public static NumberRange SpreadK { get; } = NumberRange.From(0, 30, "K");

    public static NumberRange ReferenceHoursPerMinute { get; } = NumberRange.Between(0, 100, "reference hours a minute");

    public static NumberRange LampMinutes { get; } = NumberRange.Between(0, 1440, "minutes");

    public static TimeSpan ShortestTime { get; } = TimeSpan.FromSeconds(1);

    public static TimeSpan LongestTime { get; } = TimeSpan.FromDays(1000);
}
