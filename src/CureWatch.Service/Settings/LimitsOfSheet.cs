using CureWatch.Products;

namespace CureWatch.Service.Settings;

/// <summary>The limits of a product sheet as people write them.</summary>
internal static class LimitsOfSheet
{
    public static SheetLimits Read(JsonCursor limits)
    {
        _ = limits.Keys([], [.. JsonCursor.DegreesOf("panelMin", "panelMax", "heatMax"), "humidityMinPct", "humidityMaxPct", "spreadMinK", "spreadMinF"]);
        double? panelMinC = limits.Celsius("panelMin", SheetRanges.PanelC);
        double? panelMaxC = limits.Celsius("panelMax", SheetRanges.PanelC);
        double? humidityMinPct = limits["humidityMinPct"].Number(SheetRanges.HumidityLimitPct);
        double? humidityMaxPct = limits["humidityMaxPct"].Number(SheetRanges.HumidityLimitPct);
        double spreadMinK = limits.Kelvins("spreadMin", SheetRanges.SpreadK) ?? SheetLimits.UsualSpreadMinK;
        double? heatMaxC = limits.Celsius("heatMax", SheetRanges.PanelC);

        if (panelMinC >= panelMaxC)
        {
            limits.DegreesAt("panelMax").Refuse($"above panelMin, which is {limits.InUnitOf("panelMax", panelMinC!.Value)}");
        }

        if (humidityMinPct >= humidityMaxPct)
        {
            limits["humidityMaxPct"].Refuse($"above humidityMinPct, which is {humidityMinPct!.Value:0.######}");
        }

        if (panelMaxC > heatMaxC)
        {
            limits.DegreesAt("heatMax").Refuse($"at least panelMax, which is {limits.InUnitOf("heatMax", panelMaxC!.Value)}");
        }

        return new SheetLimits(panelMinC, panelMaxC, humidityMinPct, humidityMaxPct, spreadMinK, heatMaxC);
    }
}
