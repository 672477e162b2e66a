using CureWatch.Panels;
using CureWatch.Products;
using CureWatch.Psychrometrics;

namespace CureWatch.Curing;

/// <summary>The climates between two panel temperatures and two vapour pressures.</summary>
/// <param name="ColdestKelvins">Coldest panel [K].</param>
/// <param name="WarmestKelvins">Warmest panel [K].</param>
/// <param name="DriestPa">Least vapour pressure [Pa], above 0.</param>
/// <param name="MoistestPa">Most vapour pressure [Pa].</param>
/// <param name="PanelIsAir">Whether the panel is as warm as the air, which holds no more vapour than saturates it.</param>
/// <remarks>
/// Source (law): between two clamps a rate rises or falls all the way with either temperature or vapour pressure, so its least and its most
/// lie at corners. The slow rate is nothing beyond the clamps, and the wettest and the driest film lie at corners too. The fast rate, which
/// has but the lower clamp, can only have its least there. Edges: where E is within 1 % of m times the heat of vaporisation the least lies
/// between two corners, below them by less than a thousandth. How far a climate is from what stands for it bends the same way, and moves no corner.
/// </remarks>
internal readonly record struct ClimateBox(
    double ColdestKelvins, double WarmestKelvins, double DriestPa, double MoistestPa, bool PanelIsAir)
{
    /// <summary>The box with one more climate in it.</summary>
    /// <param name="climate">The climate.</param>
    /// <returns>The box.</returns>
    public ClimateBox With(Exposure climate) => this with
    {
        ColdestKelvins = Math.Min(ColdestKelvins, climate.PanelKelvins),
        WarmestKelvins = Math.Max(WarmestKelvins, climate.PanelKelvins),
        DriestPa = Math.Min(DriestPa, climate.VapourPressurePa),
        MoistestPa = Math.Max(MoistestPa, climate.VapourPressurePa),
    };

    /// <summary>The least rate that may be counted on.</summary>
    /// <param name="standIn">What stands for it in the mean.</param>
    /// <returns>Reference hours an hour [1]; 0 where some climate of the box earns nothing.</returns>
    public double Slow(StandIn standIn)
    {
        double wettest = SlowAt(standIn, ColdestKelvins, MoistestPa);
        double driest = wettest > 0 ? SlowAt(standIn, WarmestKelvins, DriestPa) : 0;
        return driest > 0
            ? Math.Min(Math.Min(wettest, driest), Math.Min(SlowAt(standIn, ColdestKelvins, DriestPa), SlowAt(standIn, WarmestKelvins, MoistestPa)))
            : 0;
    }

    /// <summary>The highest rate that must be reckoned with.</summary>
    /// <param name="standIn">What stands for it in the mean.</param>
    /// <returns>Reference hours an hour [1].</returns>
    public double Fast(StandIn standIn)
    {
        double most = Math.Max(
            Math.Max(FastAt(standIn, ColdestKelvins, DriestPa), FastAt(standIn, ColdestKelvins, MoistestPa)),
            Math.Max(FastAt(standIn, WarmestKelvins, DriestPa), FastAt(standIn, WarmestKelvins, MoistestPa)));
        if (!PanelIsAir || MoistestPa <= SaturationPressure.OverWaterPa(ColdestKelvins))
        {
            return most;
        }

        // The corner that is cut off: the coldest air that holds the most vapour.
        double saturatedKelvins = Math.Min(WarmestKelvins, DewPoint.OfPressure(MoistestPa).Kelvins);
        return Math.Max(most, FastAt(standIn, saturatedKelvins, MoistestPa));
    }

    private static double SlowAt(StandIn standIn, double panelKelvins, double vapourPressurePa)
    {
        RateTerms terms = standIn.Law.Terms(panelKelvins, vapourPressurePa);
        return terms.SlowEarns ? standIn.Slow(terms) : 0;
    }

    private double FastAt(StandIn standIn, double panelKelvins, double vapourPressurePa)
    {
        double held = PanelIsAir ? Math.Min(vapourPressurePa, SaturationPressure.OverWaterPa(panelKelvins)) : vapourPressurePa;
        return standIn.Fast(standIn.Law.Terms(panelKelvins, held));
    }
}
