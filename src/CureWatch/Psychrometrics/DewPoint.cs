using CureWatch.Units;

namespace CureWatch.Psychrometrics;

/// <summary>The temperature at which air, cooled at constant pressure, is saturated over liquid water.</summary>
public static class DewPoint
{
    /// <summary>Lowest vapour pressure that has a dew point here [Pa]: −98.3 °C.</summary>
    public const double LowestPressurePa = 0.005;

    /// <summary>Highest vapour pressure that has a dew point here [Pa]: 99.6 °C.</summary>
    public const double HighestPressurePa = 100_000;

    /// <summary>Dew point of air.</summary>
    /// <param name="air">Air temperature [°C], −60 to 80.</param>
    /// <param name="humidity">Relative humidity over liquid water [%], above 0, up to 100.</param>
    /// <returns>
    /// Dew point [°C]; never above <paramref name="air"/>, equal to it at saturation, rising with temperature and with humidity; within
    /// 0.003 K of IAPWS-95 from 0 °C up and 0.015 K down to −20 °C.
    /// </returns>
    /// <remarks>
    /// Equation: ln e_w(T_d) = ln e_w(T) + ln(RH/100), solved by Newton's method.
    /// Source (law): Sonntag 1990 for e_w; the first guess by the Magnus form with the coefficients of WMO-No. 8.
    /// Edges: below 0 °C the answer is over supercooled water, not frost; below 1 % the humidity is taken as 1 %.
    /// </remarks>
    /// <exception cref="ArgumentOutOfRangeException">An input is outside its range, a default humidity included.</exception>
    public static Celsius Of(Celsius air, RelativeHumidity humidity)
    {
        double lnPressure = Vapour.LnPressure(air, humidity);
        return humidity.Percent >= 100 ? air : Celsius.FromKelvins(Math.Min(air.Kelvins, KelvinsOfLn(lnPressure)));
    }

    /// <summary>Dew point of air by its vapour pressure.</summary>
    /// <param name="vapourPressurePa">Partial pressure of the water vapour [Pa], 0.005 to 100 000.</param>
    /// <returns>Dew point [°C], rising with pressure.</returns>
    /// <remarks>
    /// Equation: ln e_w(T_d) = ln e, solved as in <see cref="Of"/>.
    /// Source (law): Sonntag 1990.
    /// Edges: below 0 °C the answer is over supercooled water.
    /// </remarks>
    /// <exception cref="ArgumentOutOfRangeException">The pressure is outside its range, NaN included.</exception>
    public static Celsius OfPressure(double vapourPressurePa)
    {
        DemandVapourPressure(vapourPressurePa);
        return Celsius.FromKelvins(KelvinsOfLn(Math.Log(vapourPressurePa)));
    }

    internal static void DemandVapourPressure(double vapourPressurePa)
    {
        if (vapourPressurePa is not (>= LowestPressurePa and <= HighestPressurePa))
        {
            throw new ArgumentOutOfRangeException(
                nameof(vapourPressurePa), vapourPressurePa, $"Expected {LowestPressurePa} to {HighestPressurePa} Pa.");
        }
    }

    private static double KelvinsOfLn(double lnPressure)
    {
        double x = lnPressure - MagnusForm.LnPressureAtZero;
        double kelvins = Celsius.KelvinsAtZero + (MagnusForm.WaterB * x / (MagnusForm.WaterA - x));

        // From -20 to 45 °C one step leaves up to 1e-5 K and two 1e-12 K; at -98 °C two leave 5e-7 K.
        kelvins -= (SaturationPressure.LnOverWater(kelvins) - lnPressure) / SaturationPressure.WaterSlope(kelvins);
        return kelvins - ((SaturationPressure.LnOverWater(kelvins) - lnPressure) / SaturationPressure.WaterSlope(kelvins));
    }
}
