using CureWatch.Products;

namespace CureWatch.Service.Settings;

/// <summary>What a sheet's numbers may be. Source (choice): wide enough for any sheet, narrow enough to catch a slip of the pen.</summary>
internal static class SheetRanges
{
    /// <summary>The climates of rows and reference; up to where the vapour pressure formula holds.</summary>
    public static NumberRange ClimateC { get; } = NumberRange.From(-30, 100, "°C");

    public static NumberRange PanelC { get; } = NumberRange.From(-30, 200, "°C");

    public static NumberRange HumidityPct { get; } = NumberRange.Between(0, 100, "% RH");

    /// <summary>The humidities the rate law follows; outside them an hour at the reference would not earn a reference hour.</summary>
    public static NumberRange ReferencePct { get; } =
        NumberRange.From(100 * RateLaw.DriestActivity, 100 * RateLaw.MoistestActivity, "% RH");

    public static NumberRange HumidityLimitPct { get; } = NumberRange.From(0, 100, "% RH");

    public static NumberRange SpreadK { get; } = NumberRange.From(0, 30, "K");

    public static NumberRange ReferenceHoursPerMinute { get; } = NumberRange.Between(0, 100, "reference hours a minute");

    public static NumberRange LampMinutes { get; } = NumberRange.Between(0, 1440, "minutes");

    public static TimeSpan ShortestTime { get; } = TimeSpan.FromSeconds(1);

    public static TimeSpan LongestTime { get; } = TimeSpan.FromDays(1000);
}
