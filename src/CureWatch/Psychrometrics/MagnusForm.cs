namespace CureWatch.Psychrometrics;

/// <summary>
/// The Magnus form e = 611.2 Pa · exp(A·t/(B + t)), t in °C, which can be turned round by hand and so starts Newton's method.
/// Source (law): WMO-No. 8, Guide to Instruments and Methods of Observation, annex on formulae for humidity.
/// </summary>
internal static class MagnusForm
{
    /// <summary>ln 611.2, the pressure in Pa at 0 °C.</summary>
    public const double LnPressureAtZero = 6.415424237852311;

    public const double WaterA = 17.62, WaterB = 243.12;

    public const double IceA = 22.46, IceB = 272.62;
}
