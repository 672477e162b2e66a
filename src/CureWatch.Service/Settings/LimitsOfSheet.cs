using CureWatch.Products;

namespace CureWatch.Service.Settings;

/// <summary>The limits of a product sheet as people write them.</summary>
internal static class LimitsOfSheet
{
    public static SheetLimits Read(JsonCursor limits)
    {
        _ = limits.Keys([], "panelMinC", "panelMaxC", "humidityMinPct", "humidityMaxPct", "spreadMinK", "heatMaxC");
        double? panelMinC = limits["panelMinC"].Number(SheetRanges.PanelC);
        double? panelMaxC = limits["panelMaxC"].Number(SheetRanges.PanelC);
        double? humidityMinPct = limits["humidityMinPct"].Number(SheetRanges.HumidityLimitPct);
        double? humidityMaxPct = limits["humidityMaxPct"].Number(SheetRanges.HumidityLimitPct);
        double spreadMinK = limits["spreadMinK"].Number(SheetRanges.SpreadK) ?? SheetLimits.UsualSpreadMinK;
        double? heatMaxC = limits["heatMaxC"].Number(SheetRanges.PanelC);

        if (panelMinC >= panelMaxC)
        {
            limits["panelMaxC"].Refuse($"above panelMinC, which is {panelMinC}");
        }

        if (humidityMinPct >= humidityMaxPct)
        {
            limits["humidityMaxPct"].Refuse($"above humidityMinPct, which is {humidityMinPct}");
        }

        if (panelMaxC > heatMaxC)
        {
            limits["heatMaxC"].Refuse($"at least panelMaxC, which is {panelMaxC}");
        }

        return new SheetLimits(panelMinC, panelMaxC, humidityMinPct, humidityMaxPct, spreadMinK, heatMaxC);
    }
}
