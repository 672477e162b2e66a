using CureWatch.Psychrometrics;
using CureWatch.Units;

namespace CureWatch.Planning;

/// <summary>The air around a surface that is to be coated.</summary>
/// <param name="AirC">Air temperature [°C].</param>
/// <param name="VapourPressurePa">Vapour pressure of the wettest air [Pa].</param>
/// <param name="HumidityMinPct">Driest air [%].</param>
/// <param name="HumidityMaxPct">Moistest air [%].</param>
/// <param name="CondensationC">Highest condensation temperature [°C].</param>
public sealed record AirLook(double AirC, double VapourPressurePa, double HumidityMinPct, double HumidityMaxPct, double CondensationC)
{
    /// <summary>How warm this air has to get, its water staying the same, to be as dry as wanted.</summary>
    /// <param name="humidityPct">Relative humidity wanted [%], above 0.</param>
    /// <returns>Air temperature [°C]; null where no bay is as warm.</returns>
    /// <remarks>Equation: e_w(T) = e/(RH/100): the dew point of a vapour pressure raised by as much. Source (law): as for <see cref="DewPoint"/>.</remarks>
    public double? WarmedToC(double humidityPct)
    {
        double saturatedPa = 100 * VapourPressurePa / humidityPct;
        return saturatedPa <= SaturationPressure.OverWaterPa(HottestBayC + Celsius.KelvinsAtZero) ? DewPoint.OfPressure(saturatedPa).Degrees : null;
    }

    /// <summary>Nobody is told to heat a bay further than this [°C]. Source (choice).</summary>
    private const double HottestBayC = 35;
}

/// <summary>How warm a surface that is to be coated is, and how that is known.</summary>
/// <param name="ColdestC">The coldest it is by what is measured [°C].</param>
/// <param name="HottestC">The hottest it is by what is measured [°C].</param>
/// <param name="StandardK">Standard error of both [K].</param>
/// <param name="SpreadStandardK">Standard error of its spread [K].</param>
/// <param name="Basis">How it is known.</param>
/// <param name="MeasuredAt">When that was measured.</param>
public sealed record PanelLook(
    double ColdestC, double HottestC, double StandardK, double SpreadStandardK, PanelBasis Basis, DateTimeOffset MeasuredAt)
{
    /// <summary>
    /// How many standard errors a bound lies away. Source (choice): two, with the working rule of 3 K as in its use for steel; one in forty is
    /// beyond.
    /// </summary>
    private const double Errors = 2;

    /// <summary>Whether it was measured itself, not taken from elsewhere.</summary>
    public bool IsMeasured => Basis <= PanelBasis.OwnProbe;

    /// <summary>How far it may be off [K].</summary>
    public double DoubtK => Errors * StandardK;

    /// <summary>The coldest it has to be reckoned with [°C]: as measured, or, taken from elsewhere, colder by the doubt.</summary>
    public double ReckonedColdestC => IsMeasured ? ColdestC : ColdestC - DoubtK;

    /// <summary>The hottest that following its air can have made it [°C]: what is still colder comes as near as it may, and no further; infinite where that is no limit.</summary>
    public double AtMostC { get; init; } = double.PositiveInfinity;

    /// <summary>The hottest it has to be reckoned with [°C]: as measured, or, taken from elsewhere, hotter by the doubt, as far as its air can have made it so.</summary>
    public double ReckonedHottestC => IsMeasured ? HottestC : Math.Min(HottestC + DoubtK, AtMostC);

    /// <summary>The hottest that air makes what is still colder than it [°C].</summary>
    /// <param name="airC">The air [°C].</param>
    /// <param name="standardK">Standard error of a panel that lags behind it no more [K].</param>
    /// <returns>The temperature.</returns>
    internal static double WarmedBy(double airC, double standardK) => airC + (Errors * standardK);

    /// <summary>How far the coldest is above condensation [K].</summary>
    /// <param name="air">The air.</param>
    /// <returns>The spread, below 0 when wet.</returns>
    public double SpreadK(AirLook air) => ColdestC - air.CondensationC;

    /// <summary>How little the spread may be [K].</summary>
    /// <param name="air">The air.</param>
    /// <returns>The spread less two standard errors.</returns>
    public double LeastSpreadK(AirLook air) => SpreadK(air) - (Errors * SpreadStandardK);
}

/// <summary>How the temperature of a surface is known, the surest first.</summary>
public enum PanelBasis
{
    /// <summary>Read on it by hand a short time ago.</summary>
    Spot,

    /// <summary>By a probe fixed to it.</summary>
    ItsProbe,

    /// <summary>By a probe on a surface of its material.</summary>
    OwnProbe,

    /// <summary>Taken from probes on other surfaces.</summary>
    OtherProbes,

    /// <summary>Not measured: reckoned from the air, which it lags.</summary>
    Air,
}
