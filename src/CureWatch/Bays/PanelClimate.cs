using CureWatch.Curing;
using CureWatch.Products;
using CureWatch.Psychrometrics;
using CureWatch.Units;

namespace CureWatch.Bays;

/// <summary>The climate a coat cures in, on average over its cure, lived through and expected.</summary>
/// <param name="PanelC">How warm its panel is [°C].</param>
/// <param name="HumidityPct">The humidity of the air at that panel [% RH], no drier and no moister than its law follows.</param>
public sealed record PanelClimate(double PanelC, double HumidityPct)
{
    internal static PanelClimate Of(RateLaw law, MeanClimate mean)
    {
        double kelvins = 1 / ((RateLaw.GasConstant * mean.X) + (1 / law.Reference.Temperature.Kelvins));
        double percent = 100 * law.VapourPressurePaAt(kelvins, mean.Y) / SaturationPressure.OverWaterPa(kelvins);
        return new PanelClimate(Celsius.FromKelvins(kelvins).Degrees, percent);
    }
}
