using System.Collections.Immutable;
using CureWatch.Products;

namespace CureWatch.Service.Settings;

/// <summary>The lamp bands of a product sheet as people write them. A lamp spoils coats, so nothing about one is assumed.</summary>
internal static class LampOfSheet
{
    public static ImmutableArray<LampBand> Read(JsonCursor lamp, double? heatMaxC) =>
        [.. lamp.Items().Select(b => Band(b, heatMaxC)).OfType<LampBand>()];

    private static LampBand? Band(JsonCursor band, double? heatMaxC)
    {
        _ = band.Keys(["referenceHoursPerMinute", "notBefore", "maxMinutes", "stages"], JsonCursor.DegreesOf("panelMin", "panelMax"));
        double? minC = band.Celsius("panelMin", SheetRanges.PanelC, isNeeded: true);
        double? maxC = band.Celsius("panelMax", SheetRanges.PanelC, isNeeded: true);
        double? hoursPerMinute = band["referenceHoursPerMinute"].Number(SheetRanges.ReferenceHoursPerMinute);
        TimeSpan? notBefore = band["notBefore"].Duration(TimeSpan.Zero, SheetRanges.LongestTime);
        double? maxMinutes = band["maxMinutes"].Number(SheetRanges.LampMinutes);
        ImmutableArray<Stage> stages = band["stages"].Each<Stage>(least: 1);

        if (minC >= maxC)
        {
            band.DegreesAt("panelMax").Refuse($"above panelMin, which is {band.InUnitOf("panelMax", minC!.Value)}");
        }

        if (maxC > heatMaxC)
        {
            band.DegreesAt("panelMax").Refuse($"up to the sheet's own limits/heatMax, which is {band.InUnitOf("panelMax", heatMaxC!.Value)}");
        }

        return minC is null || maxC is null || hoursPerMinute is null || notBefore is null || maxMinutes is null
            ? null
            : new LampBand(minC.Value, maxC.Value, hoursPerMinute.Value, notBefore.Value, maxMinutes.Value, stages);
    }
}
