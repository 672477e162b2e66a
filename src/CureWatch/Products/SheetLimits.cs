namespace CureWatch.Products;

/// <summary>What a sheet asks of the climate; null where the sheet states no limit.</summary>
/// <param name="PanelMinC">Coldest panel [°C].</param>
/// <param name="PanelMaxC">Hottest panel while the product is applied and cures [°C].</param>
/// <param name="HumidityMinPct">Driest air [%].</param>
/// <param name="HumidityMaxPct">Moistest air [%].</param>
/// <param name="SpreadMinK">Least panel temperature above the condensation temperature [K]; 3 K where the sheet is silent.</param>
/// <param name="HeatMaxC">Panel temperature that spoils the coat or what it lies on [°C].</param>
public sealed record SheetLimits(
    double? PanelMinC, double? PanelMaxC, double? HumidityMinPct, double? HumidityMaxPct, double SpreadMinK, double? HeatMaxC)
{
    /// <summary>
    /// The usual least spread [K]. Source: the working rule quoted with ISO 8502-4:2017, "surface at least 3 K above the dew point
    /// unless otherwise agreed"; written for steel before painting, so guidance here: the product sheet wins.
    /// </summary>
    public const double UsualSpreadMinK = 3;
}
