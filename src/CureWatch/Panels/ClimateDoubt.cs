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

    /// <summary>Where nobody measures.</summary>
    public static ClimateDoubt OfNobody { get; } = new(LagK * LagK, 0, LagK * LagK, PanelIsMeasured: false);

    /// <summary>Variance of the panel temperature where it is told to lag behind the air.</summary>
    /// <param name="lagK">How far it is from the air [K]; 0 where it is measured.</param>
    /// <returns>The variance [K²].</returns>
    /// <remarks>Source (choice): a modelled lag is as uncertain as it is large, since a skin on a cold body takes several times as long as one alone.</remarks>
    public double PanelVarianceWithLagK2(double lagK) => Math.Max(PanelVarianceK2, lagK * lagK);

    /// <summary>Variance of an error of which only a limit is known. See <see cref="DewPointUncertainty.StandardOfLimit"/>.</summary>
    /// <param name="limit">The ± limit of a data sheet, zero or more.</param>
    /// <returns>The variance, in the limit's unit squared.</returns>
    public static double VarianceOfLimit(double limit)
    {
        double standard = DewPointUncertainty.StandardOfLimit(limit);
        return standard * standard;
    }
}
