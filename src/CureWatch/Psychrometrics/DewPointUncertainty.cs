using CureWatch.Units;

namespace CureWatch.Psychrometrics;

/// <summary>How far a dew point and a spread can be trusted, given how far the probes can.</summary>
/// <remarks>
/// All uncertainties are standard uncertainties (1 sigma). A data sheet's "± limit" becomes one by <see cref="StandardOfLimit"/>.
/// The dew point's uncertainty is used for the spread below 0 °C too, where the frost point governs: it is the larger by up to a seventh.
/// </remarks>
public sealed record DewPointUncertainty
{
    private readonly double _airStandardKelvins;
    private readonly double _fromHumidityKelvins;

    /// <summary>Works out the uncertainty of the dew point of air.</summary>
    /// <param name="air">Air temperature [°C], −60 to 80.</param>
    /// <param name="humidity">Relative humidity over liquid water [%], above 0, up to 100; below 1 taken as 1.</param>
    /// <param name="airStandardKelvins">Standard uncertainty of the air temperature [K], zero or more.</param>
    /// <param name="humidityStandardPercent">Standard uncertainty of the humidity [% RH], zero or more.</param>
    /// <remarks>
    /// Equation: a = s_w(T)/s_w(T_d); b = 1/(RH·s_w(T_d)); u(T_d)² = a²·u_T² + b²·u_RH², with s_w = d ln e_w/dT.
    /// Source (law): the derivatives of Sonntag 1990 in the law of propagation of uncertainty, JCGM 100:2008, eq. 10.
    /// Edges: first order, so a humidity uncertainty near the humidity itself is understated.
    /// </remarks>
    /// <exception cref="ArgumentOutOfRangeException">An input is outside its range, NaN included.</exception>
    public DewPointUncertainty(Celsius air, RelativeHumidity humidity, double airStandardKelvins, double humidityStandardPercent)
    {
        DemandNotNegative(airStandardKelvins, nameof(airStandardKelvins));
        DemandNotNegative(humidityStandardPercent, nameof(humidityStandardPercent));
        double slope = SaturationPressure.WaterSlope(DewPoint.Of(air, humidity).Kelvins);
        _airStandardKelvins = airStandardKelvins;
        PerAirKelvin = SaturationPressure.WaterSlope(air.Kelvins) / slope;
        PerHumidityPercent = 1 / (Vapour.UsedPercent(humidity) * slope);
        _fromHumidityKelvins = PerHumidityPercent * humidityStandardPercent;
        DewPointKelvins = Root(PerAirKelvin * airStandardKelvins, _fromHumidityKelvins);
    }

    /// <summary>a: how far the dew point moves with the air temperature [K/K], 0 to 1.</summary>
    public double PerAirKelvin { get; }

    /// <summary>b: how far the dew point moves with the humidity [K/% RH], above zero.</summary>
    public double PerHumidityPercent { get; }

    /// <summary>Standard uncertainty of the dew point [K].</summary>
    public double DewPointKelvins { get; }

    /// <summary>Standard uncertainty that stands for a data sheet's ± limit.</summary>
    /// <param name="limit">The limit, in any unit, zero or more.</param>
    /// <returns>limit/√3, in the same unit.</returns>
    /// <remarks>
    /// Equation: u = limit/√3.
    /// Source (law): JCGM 100:2008, 4.3.7; (choice) any value within the limit counts as equally likely, since sheets seldom say more.
    /// </remarks>
    /// <exception cref="ArgumentOutOfRangeException">The limit is below zero or NaN.</exception>
    public static double StandardOfLimit(double limit)
    {
        DemandNotNegative(limit, nameof(limit));
        return limit / Math.Sqrt(3);
    }

    /// <summary>Standard uncertainty of the spread where the panel has a probe of its own.</summary>
    /// <param name="panelStandardKelvins">Standard uncertainty of the panel temperature [K], zero or more.</param>
    /// <returns>Standard uncertainty [K].</returns>
    /// <remarks>
    /// Equation: u(S)² = u_P² + u(T_d)².
    /// Source (law): JCGM 100:2008, eq. 10, the two probes independent.
    /// Edges: an infrared spot on shiny paint or glass adds 1–2 K (common practice, no source).
    /// </remarks>
    /// <exception cref="ArgumentOutOfRangeException">The uncertainty is below zero or NaN.</exception>
    public double OfSpreadWithPanelProbe(double panelStandardKelvins)
    {
        DemandNotNegative(panelStandardKelvins, nameof(panelStandardKelvins));
        return Root(panelStandardKelvins, DewPointKelvins);
    }

    /// <summary>Standard uncertainty of the spread where the panel is taken to be as warm as the air.</summary>
    /// <param name="lagStandardKelvins">Standard uncertainty of the panel's lag behind the air [K], 1 or more.</param>
    /// <returns>Standard uncertainty [K].</returns>
    /// <remarks>
    /// Equation: u(S)² = (1 − a)²·u_T² + b²·u_RH² + u_lag².
    /// Source (law): JCGM 100:2008, eq. 10: one probe gives both temperatures, so its error cancels in part; (choice) no panel that is
    /// not measured is known better than 1 K.
    /// </remarks>
    /// <exception cref="ArgumentOutOfRangeException">The lag's uncertainty is below 1 K or NaN.</exception>
    public double OfSpreadWithoutPanelProbe(double lagStandardKelvins)
    {
        if (lagStandardKelvins is not (>= 1 and < double.PositiveInfinity))
        {
            throw new ArgumentOutOfRangeException(nameof(lagStandardKelvins), lagStandardKelvins, "Expected 1 K or more.");
        }

        return Root(Root((1 - PerAirKelvin) * _airStandardKelvins, _fromHumidityKelvins), lagStandardKelvins);
    }

    /// <summary>Chance that the true spread lies below a limit.</summary>
    /// <param name="spreadKelvins">The spread as measured [K].</param>
    /// <param name="spreadStandardKelvins">Its standard uncertainty [K], above zero.</param>
    /// <param name="limitKelvins">The limit [K]; 0 asks for the chance that the panel is condensing.</param>
    /// <returns>Chance [1], 0 to 1, falling as the spread grows.</returns>
    /// <remarks>
    /// Equation: P = Φ((limit − S)/u(S)).
    /// Source (choice): a normal distribution, since several independent errors add up.
    /// </remarks>
    /// <exception cref="ArgumentOutOfRangeException">The uncertainty is not above zero, or an input is NaN.</exception>
    public static double ChanceOfSpreadBelow(double spreadKelvins, double spreadStandardKelvins, double limitKelvins = 0)
    {
        if (spreadStandardKelvins is not (> 0 and < double.PositiveInfinity))
        {
            throw new ArgumentOutOfRangeException(nameof(spreadStandardKelvins), spreadStandardKelvins, "Expected above 0 K.");
        }

        if (double.IsNaN(limitKelvins - spreadKelvins))
        {
            throw new ArgumentOutOfRangeException(nameof(spreadKelvins), spreadKelvins, "Expected a number of kelvins.");
        }

        return NormalDistribution.ChanceBelow((limitKelvins - spreadKelvins) / spreadStandardKelvins);
    }

    private static void DemandNotNegative(double value, string name)
    {
        if (value is not (>= 0 and < double.PositiveInfinity))
        {
            throw new ArgumentOutOfRangeException(name, value, "Expected zero or more.");
        }
    }

    private static double Root(double one, double other) => Math.Sqrt((one * one) + (other * other));
}
