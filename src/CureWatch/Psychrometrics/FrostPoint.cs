using CureWatch.Units;

namespace CureWatch.Psychrometrics;

/// <summary>The temperature at which air, cooled at constant pressure, is saturated over ice.</summary>
public static class FrostPoint
{
    /// <summary>Frost point of air.</summary>
    /// <param name="air">Air temperature [°C], −60 to 80.</param>
    /// <param name="humidity">Relative humidity over liquid water [%], above 0, up to 100.</param>
    /// <returns>
    /// Frost point [°C], never above 0, at or above the dew point; null where the dew point is 0 °C or more. Within 0.015 K of
    /// IAPWS R14-08 for dew points down to −20 °C.
    /// </returns>
    /// <remarks>
    /// Equation: ln e_i(T_f) = ln e_w(T) + ln(RH/100), solved by Newton's method.
    /// Source (law): Sonntag 1990; first guess as for <see cref="DewPoint"/>.
    /// Edges: in freezing air near saturation over water it lies above the air's own temperature: such air is supersaturated over ice.
    /// In the last 0.002 K under a dew point of 0 °C the answer is held at 0 °C, since water and ice meet at 0.01 °C. Below 1 % the
    /// humidity is taken as 1 %.
    /// </remarks>
    /// <exception cref="ArgumentOutOfRangeException">An input is outside its range, a default humidity included.</exception>
    public static Celsius? Of(Celsius air, RelativeHumidity humidity) =>
        DewPoint.Of(air, humidity).Degrees >= 0 ? null : BelowFreezing(Vapour.LnPressure(air, humidity));

    /// <summary>Frost point of air by its vapour pressure.</summary>
    /// <param name="vapourPressurePa">Partial pressure of the water vapour [Pa], 0.005 to 100 000.</param>
    /// <returns>Frost point [°C], never above 0; null where the dew point is 0 °C or more.</returns>
    /// <remarks>
    /// Equation: ln e_i(T_f) = ln e, solved as in <see cref="Of"/>.
    /// Source (law): Sonntag 1990.
    /// Edges: as for <see cref="Of"/>.
    /// </remarks>
    /// <exception cref="ArgumentOutOfRangeException">The pressure is outside its range, NaN included.</exception>
    public static Celsius? OfPressure(double vapourPressurePa) =>
        DewPoint.OfPressure(vapourPressurePa).Degrees >= 0 ? null : BelowFreezing(Math.Log(vapourPressurePa));

    internal static Celsius BelowFreezing(double lnPressure)
    {
        double x = lnPressure - MagnusForm.LnPressureAtZero;
        double kelvins = Celsius.KelvinsAtZero + (MagnusForm.IceB * x / (MagnusForm.IceA - x));
        kelvins -= (SaturationPressure.LnOverIce(kelvins) - lnPressure) / SaturationPressure.IceSlope(kelvins);
        kelvins -= (SaturationPressure.LnOverIce(kelvins) - lnPressure) / SaturationPressure.IceSlope(kelvins);
        return Celsius.FromKelvins(Math.Min(kelvins, Celsius.KelvinsAtZero));
    }
}
