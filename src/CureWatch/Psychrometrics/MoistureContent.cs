using CureWatch.Units;

namespace CureWatch.Psychrometrics;

/// <summary>How much water the air carries.</summary>
public static class MoistureContent
{
    /// <summary>Gas constant of water vapour [J/(kg K)]. Source (law): R/M with CODATA 2018 and 18.015268 g/mol (IAPWS).</summary>
    public const double VapourGasConstant = 461.523;

    /// <summary>
    /// Mass of a mole of water over that of dry air [1]. Source (law): 18.015268/28.966 g/mol, as in ASHRAE Fundamentals 2017, ch. 1.
    /// </summary>
    public const double MolarMassRatio = 0.621945;

    /// <summary>Absolute humidity: mass of water vapour in a volume of air.</summary>
    /// <param name="air">Air temperature [°C], −60 to 80.</param>
    /// <param name="vapourPressurePa">Partial pressure of the water vapour [Pa], 0.005 to 100 000.</param>
    /// <returns>Absolute humidity [g/m³], above zero.</returns>
    /// <remarks>
    /// Equation: AH = 1000·e/(R_v·T).
    /// Source (law): the ideal gas law.
    /// Edges: real moist air holds about 0.5 % more (enhancement factor and non-ideality are left out).
    /// </remarks>
    /// <exception cref="ArgumentOutOfRangeException">An input is outside its range, NaN included.</exception>
    public static double GramsPerCubicMetre(Celsius air, double vapourPressurePa)
    {
        ClimateRange.DemandAir(air);
        DewPoint.DemandVapourPressure(vapourPressurePa);
        return 1000 * vapourPressurePa / (VapourGasConstant * air.Kelvins);
    }

    /// <summary>Mixing ratio: mass of water vapour on a mass of dry air.</summary>
    /// <param name="vapourPressurePa">Partial pressure of the water vapour [Pa], from 0.005 to below the air pressure.</param>
    /// <param name="pressurePa">Air pressure [Pa], 50 000 to 110 000.</param>
    /// <returns>Mixing ratio [g/kg], above zero.</returns>
    /// <remarks>
    /// Equation: W = 1000·0.621945·e/(p − e).
    /// Source (law): ASHRAE Fundamentals 2017, ch. 1, eq. 20.
    /// Edges: the enhancement factor (1.004 at 20 °C) is left out.
    /// </remarks>
    /// <exception cref="ArgumentOutOfRangeException">An input is outside its range, NaN included.</exception>
    public static double GramsPerKilogram(double vapourPressurePa, double pressurePa)
    {
        ClimateRange.DemandPressure(pressurePa);
        DewPoint.DemandVapourPressure(vapourPressurePa);
        if (vapourPressurePa >= pressurePa)
        {
            throw new ArgumentOutOfRangeException(
                nameof(vapourPressurePa), vapourPressurePa, $"Expected below the air pressure, {pressurePa} Pa.");
        }

        return 1000 * Ratio(vapourPressurePa, pressurePa);
    }

    internal static double Ratio(double vapourPressurePa, double pressurePa) =>
        MolarMassRatio * vapourPressurePa / (pressurePa - vapourPressurePa);
}
