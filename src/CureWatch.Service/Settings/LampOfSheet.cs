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
        _ = band.Keys(["panelMinC", "panelMaxC", "referenceHoursPerMinute", "notBefore", "maxMinutes", "stages"]);
        double? minC = band["panelMinC"].Number(SheetRanges.PanelC);
        double? maxC = band["panelMaxC"].Number(SheetRanges.PanelC);
        double? hoursPerMinute = band["referenceHoursPerMinute"].Number(SheetRanges.ReferenceHoursPerMinute);
        TimeSpan? notBefore = band["notBefore"].Duration(TimeSpan.Zero, SheetRanges.LongestTime);
        double? maxMinutes = band["maxMinutes"].Number(SheetRanges.LampMinutes);
        ImmutableArray<Stage> stages = band["stages"].Each<Stage>(least: 1);

        if (minC >= maxC)
        {
            band["panelMaxC"].Refuse($"above panelMinC, which is {minC}");
        }

        if (maxC > heatMaxC)
        {
            band["panelMaxC"].Refuse($"up to the sheet's own limits/heatMaxC, which is {heatMaxC}");
        }

        return minC is null || maxC is null || hoursPerMinute is null || notBefore is null || maxMinutes is null
            ? null
            : new LampBand(minC.Value, maxC.Value, hoursPerMinute.Value, notBefore.Value, maxMinutes.Value, stages);
    }
}
