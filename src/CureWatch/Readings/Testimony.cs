using CureWatch.Psychrometrics;

namespace CureWatch.Readings;

/// <summary>What one of several probes says of one thing, and how far it may be off by its data sheet.</summary>
/// <param name="Kelvins">Temperature [K].</param>
/// <param name="VapourPressurePa">Vapour pressure of the air [Pa]; 0 for a panel.</param>
/// <param name="LimitK">Its ± limit [K].</param>
/// <param name="LimitPct">Its ± limit [% RH].</param>
/// <remarks>The default is what nobody said.</remarks>
public readonly record struct Testimony(double Kelvins, double VapourPressurePa, double LimitK, double LimitPct)
{
    /// <summary>How far two places in one air may be apart beyond what their probes may be off [K], [% RH]. Source (choice).</summary>
    private const double AirApartK = 0.5, AirApartPct = 2;

    /// <summary>How far two panels of one material may be apart beyond what their probes may be off [K]. Source (choice).</summary>
    private const double PanelsApartK = 1;

    /// <summary>How far it is from another, as a share of how far the two may be apart.</summary>
    /// <param name="other">The other, of the same kind.</param>
    /// <returns>The share [1]; above 1 they disagree.</returns>
    /// <remarks>
    /// Equation: temperatures by |ΔT|/(l + l' + apart); the moisture of an air by its vapour pressure, which is the same in all of it, as
    /// relative humidity at the mean temperature: 100 |Δe|/e_w against the limits of both probes, a probe's being l_RH + RH·s_w·l_T. The larger
    /// of the two counts. Source (law): d ln e_w/dT = s_w; limits are added, since a data sheet's limit is one that is kept.
    /// </remarks>
    public double DistanceTo(Testimony other)
    {
        bool isAir = VapourPressurePa > 0;
        double byTemperature = Math.Abs(Kelvins - other.Kelvins) / (LimitK + other.LimitK + (isAir ? AirApartK : PanelsApartK));
        if (!isAir)
        {
            return byTemperature;
        }

        double byMoisture = Math.Abs(MoistureAboveAsPct(other)) / (MoistureLimitPct + other.MoistureLimitPct + AirApartPct);
        return Math.Max(byTemperature, byMoisture);
    }

    /// <summary>How much moister than another it says the air is, as relative humidity at their mean temperature.</summary>
    /// <param name="other">The other.</param>
    /// <returns>The difference [% RH]; below 0 where it says less.</returns>
    public double MoistureAboveAsPct(Testimony other) =>
        100 * (VapourPressurePa - other.VapourPressurePa) / SaturationPressure.OverWaterPa((Kelvins + other.Kelvins) / 2);

    private double MoistureLimitPct =>
        LimitPct + (100 * VapourPressurePa / SaturationPressure.OverWaterPa(Kelvins) * SaturationPressure.WaterSlope(Kelvins) * LimitK);
}
