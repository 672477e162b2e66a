namespace CureWatch.Psychrometrics;

/// <summary>How far a spread may be off, and so how likely the panel is wet although it is measured dry, or dry although it is measured wet.</summary>
/// <param name="StandardKelvins">Standard uncertainty of the spread [K], zero or more.</param>
/// <param name="CondensationChance">Chance that the panel is at or below the condensation temperature [1], 0 to 1.</param>
public sealed record SpreadDoubt(double StandardKelvins, double CondensationChance)
{
    /// <summary>Standard uncertainty of reckoning a panel from the air [K]. Source (choice): the least lag of a panel in a bay whose air drifts.</summary>
    public const double LagKelvins = 1;

    /// <summary>Finds the doubt of a climate.</summary>
    /// <param name="climate">The climate.</param>
    /// <param name="airLimitKelvins">The air probe's ± limit [K], zero or more.</param>
    /// <param name="humidityLimitPercent">The air probe's ± limit [% RH], zero or more.</param>
    /// <param name="panelLimitKelvins">The panel probe's ± limit [K], zero or more; null where the panel is taken as the air, or follows it.</param>
    /// <param name="lagKelvins">Standard uncertainty of a panel without a probe [K], zero or more.</param>
    /// <returns>The doubt; null without a panel temperature.</returns>
    /// <remarks>
    /// Equation: P(S ≤ 0) = Φ(−S/u(S)). Source: <see cref="DewPointUncertainty"/>; the normal law (choice).
    /// Edges: perfect probes are sure; a panel colder than the air without a probe of its own was taken from another air probe.
    /// </remarks>
    /// <exception cref="ArgumentOutOfRangeException">A limit is below zero or NaN.</exception>
    public static SpreadDoubt? Of(BayClimate climate, double airLimitKelvins, double humidityLimitPercent, double? panelLimitKelvins, double lagKelvins = LagKelvins)
    {
        var dewPoint = new DewPointUncertainty(
            climate.Air,
            climate.Humidity,
            DewPointUncertainty.StandardOfLimit(airLimitKelvins),
            DewPointUncertainty.StandardOfLimit(humidityLimitPercent));
        if (climate.SpreadKelvins is not { } spread)
        {
            return null;
        }

        double standard = panelLimitKelvins is { } limit
            ? dewPoint.OfSpreadWithPanelProbe(DewPointUncertainty.StandardOfLimit(limit))
            : dewPoint.OfSpreadWithoutPanelProbe(lagKelvins);
        return new SpreadDoubt(
            standard, standard > 0 ? DewPointUncertainty.ChanceOfSpreadBelow(spread, standard) : spread <= 0 ? 1 : 0);
    }
}
