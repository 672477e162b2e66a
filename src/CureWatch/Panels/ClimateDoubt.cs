using CureWatch.Psychrometrics;

namespace CureWatch.Panels;

/// <summary>How far the probes of a place may be off, as one constant error for as long as a coat lives.</summary>
/// <param name="AirVarianceK2">Variance of the air temperature [K²].</param>
/// <param name="HumidityVariancePct2">Variance of the relative humidity [%²].</param>
/// <param name="PanelVarianceK2">Variance of the panel temperature [K²]; where it is modelled, the least of it.</param>
/// <param name="PanelIsMeasured">Whether the panel has a probe of its own.</param>
public sealed record ClimateDoubt(double AirVarianceK2, double HumidityVariancePct2, double PanelVarianceK2, bool PanelIsMeasured)
{
    /// <summary>Standard error of a panel that is modelled from the air [K], at least. Source (choice): no panel that is not measured is known better.</summary>
    public const double LagK = SpreadDoubt.LagKelvins;

    /// <summary>Variance of an error of which only a limit is known. See <see cref="DewPointUncertainty.StandardOfLimit"/>.</summary>
    /// <param name="limit">The ± limit of a data sheet, zero or more.</param>
    /// <returns>The variance, in the limit's unit squared.</returns>
    public static double VarianceOfLimit(double limit)
    {
        double standard = DewPointUncertainty.StandardOfLimit(limit);
        return standard * standard;
    }
}
