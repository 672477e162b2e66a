using CureWatch.Panels;
using CureWatch.Products;
using CureWatch.Psychrometrics;

namespace CureWatch.Curing;

/// <summary>The climate in which a coat earned its progress, weighted by the progress.</summary>
/// <param name="X">Mean of the law's x [mol/J].</param>
/// <param name="Y">Mean of the law's y [1].</param>
/// <param name="AirKelvins">Mean air temperature [K].</param>
/// <param name="ColderK">Mean of how much colder the surface may have been, where nobody measured it [K].</param>
/// <remarks>
/// Weighted by progress, because that is what makes the first-order error of a sum of rates: d ln Θ = ∫ k · d ln k dt / ∫ k dt.
/// The default is no climate.
/// </remarks>
public readonly record struct MeanClimate(double X, double Y, double AirKelvins, double ColderK = 0)
{
    /// <summary>The mean climate of a progress.</summary>
    /// <param name="credit">The progress, above 0 in its likely bound.</param>
    /// <returns>The mean.</returns>
    public static MeanClimate Of(Credit credit) => new(
        credit.WeightedX / credit.Likely,
        credit.WeightedY / credit.Likely,
        credit.WeightedAirKelvins / credit.Likely,
        credit.WeightedColderK / credit.Likely);

    /// <summary>The mean of a climate that does not change.</summary>
    /// <param name="law">The law that earns in it.</param>
    /// <param name="exposure">The climate.</param>
    /// <returns>The mean.</returns>
    public static MeanClimate At(RateLaw law, Exposure exposure)
    {
        RateTerms terms = law.Terms(exposure.PanelKelvins, exposure.VapourPressurePa);
        return new MeanClimate(terms.X, terms.Y, exposure.AirKelvins, exposure.ColderK);
    }

    /// <summary>How uncertain the probes make the logarithm of a rate.</summary>
    /// <param name="law">The rate law.</param>
    /// <param name="doubt">How far the probes may be off.</param>
    /// <returns>Variance of ln k [1].</returns>
    /// <remarks>
    /// Equation: the sum over the probes' errors of (∂ ln k/∂error)² · variance, at the mean climate. An error of the air temperature
    /// changes the vapour pressure (∂ ln e/∂T = s_w), and the panel too where it is modelled from the air. Source (law): GUM, eq. 10.
    /// </remarks>
    public double VarianceOfLnRate(RateLaw law, ClimateDoubt doubt)
    {
        double panelKelvins = 1 / ((RateLaw.GasConstant * X) + (1 / law.Reference.Temperature.Kelvins));
        double vapourPressurePa = law.VapourPressurePaAt(panelKelvins, Y);
        (double perPanelKelvin, double perLnVapour) = law.Slopes(panelKelvins, vapourPressurePa);
        double humidityPct = Math.Clamp(100 * vapourPressurePa / SaturationPressure.OverWaterPa(AirKelvins), 1, 100);
        double perAirKelvin = (perLnVapour * SaturationPressure.WaterSlope(AirKelvins)) + (doubt.PanelIsMeasured ? 0 : perPanelKelvin);
        double lagK = doubt.PanelIsMeasured ? 0 : panelKelvins - AirKelvins;
        double panelVarianceK2 = doubt.PanelVarianceWithLagK2(lagK);
        double perHumidityPct = perLnVapour / humidityPct;
        return (perAirKelvin * perAirKelvin * doubt.AirVarianceK2)
            + (perHumidityPct * perHumidityPct * doubt.HumidityVariancePct2)
            + (perPanelKelvin * perPanelKelvin * panelVarianceK2);
    }
}
