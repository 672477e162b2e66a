namespace CureWatch.Psychrometrics;

/// <summary>Pressure at which water vapour is in balance with a flat face of pure water or ice.</summary>
/// <remarks>
/// Equation: ln e = a₁/T + a₂ + a₃·T + a₄·T² + a₅·ln T.
/// Source (law): Sonntag 1990, Z. Meteorol. 70, 340–344, on the ITS-90 scale; good for −100 to 100 °C.
/// Edges: nothing is checked here, because a year of readings asks hundreds of millions of times. Outside the stated range the answers
/// are extrapolated, NaN gives NaN, and temperatures of 0 K and below give no meaningful number.
/// </remarks>
public static class SaturationPressure
{
    /// <summary>Saturation pressure over liquid water, supercooled below 0 °C.</summary>
    /// <param name="kelvins">Temperature of the water [K], 173.15 to 373.15.</param>
    /// <returns>Pressure [Pa], rising with temperature; within 0.03 % of IAPWS-95 from −10 to 60 °C.</returns>
    public static double OverWaterPa(double kelvins) => Math.Exp(LnOverWater(kelvins));

    /// <summary>Saturation pressure over ice.</summary>
    /// <param name="kelvins">Temperature of the ice [K], 173.15 to 273.16.</param>
    /// <returns>Pressure [Pa], rising with temperature, below that over water under 0 °C.</returns>
    public static double OverIcePa(double kelvins) => Math.Exp(LnOverIce(kelvins));

    /// <summary>Natural logarithm of the saturation pressure over liquid water.</summary>
    /// <param name="kelvins">Temperature of the water [K], 173.15 to 373.15.</param>
    /// <returns>Logarithm of the pressure in Pa [1].</returns>
    public static double LnOverWater(double kelvins) =>
        (-6096.9385 / kelvins) + 21.2409642 + (kelvins * (-2.711193e-2 + (kelvins * 1.673952e-5))) + (2.433502 * Math.Log(kelvins));

    /// <summary>Natural logarithm of the saturation pressure over ice.</summary>
    /// <param name="kelvins">Temperature of the ice [K], 173.15 to 273.16.</param>
    /// <returns>Logarithm of the pressure in Pa [1].</returns>
    public static double LnOverIce(double kelvins) =>
        (-6024.5282 / kelvins) + 29.32707 + (kelvins * (1.0613868e-2 + (kelvins * -1.3198825e-5))) - (0.49382577 * Math.Log(kelvins));

    /// <summary>How fast the saturation pressure over water rises: d ln e/dT.</summary>
    /// <param name="kelvins">Temperature of the water [K], 173.15 to 373.15.</param>
    /// <returns>Relative rise [1/K], above zero, falling with temperature.</returns>
    public static double WaterSlope(double kelvins) =>
        (((6096.9385 / kelvins) + 2.433502) / kelvins) - 2.711193e-2 + (3.347904e-5 * kelvins);

    /// <summary>How fast the saturation pressure over ice rises: d ln e/dT.</summary>
    /// <param name="kelvins">Temperature of the ice [K], 173.15 to 273.16.</param>
    /// <returns>Relative rise [1/K], above zero, falling with temperature.</returns>
    public static double IceSlope(double kelvins) =>
        (((6024.5282 / kelvins) - 0.49382577) / kelvins) + 1.0613868e-2 - (2.639765e-5 * kelvins);
}
