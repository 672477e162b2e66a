using CureWatch.Units;

namespace CureWatch.Psychrometrics;

/// <summary>The climates this room answers for.</summary>
/// <remarks>
/// Source (choice): wider than any bay, and narrow enough that every dew point lies inside Sonntag's −100 to 100 °C and that no
/// vapour pressure reaches the air pressure (saturation at 80 °C is 47.4 kPa).
/// </remarks>
public static class ClimateRange
{
    /// <summary>Coldest air and panel [°C].</summary>
    public const double ColdestC = -60;

    /// <summary>Hottest air [°C].</summary>
    public const double HottestAirC = 80;

    /// <summary>Hottest panel [°C].</summary>
    public const double HottestPanelC = 100;

    /// <summary>Lowest air pressure [Pa]: above the highest towns.</summary>
    public const double LowestPressurePa = 50_000;

    /// <summary>Highest air pressure [Pa].</summary>
    public const double HighestPressurePa = 110_000;

    /// <summary>Air pressure where nobody says [Pa]. Source (law): the standard atmosphere.</summary>
    public const double StandardPressurePa = 101_325;

    /// <summary>
    /// Least humidity that is reckoned with [%]. Source (choice): no usual probe can tell 1 % from less, and the dew point of less
    /// runs away; drier air is taken as this.
    /// </summary>
    public const double LeastHumidityPct = 1;

    /// <summary>Whether the humidity lies below <see cref="LeastHumidityPct"/>, so that it is raised to it before use.</summary>
    /// <param name="humidity">Relative humidity over liquid water [%], above 0, up to 100.</param>
    /// <returns>True where the answers hold for more humidity than was given.</returns>
    public static bool RaisesHumidity(RelativeHumidity humidity) => humidity.Percent < LeastHumidityPct;

    internal static void DemandAir(Celsius air)
    {
        if (air.Degrees is not (>= ColdestC and <= HottestAirC))
        {
            throw new ArgumentOutOfRangeException(nameof(air), air.Degrees, $"Expected {ColdestC} to {HottestAirC} °C.");
        }
    }

    internal static void DemandPanel(Celsius panel)
    {
        if (panel.Degrees is not (>= ColdestC and <= HottestPanelC))
        {
            throw new ArgumentOutOfRangeException(nameof(panel), panel.Degrees, $"Expected {ColdestC} to {HottestPanelC} °C.");
        }
    }

    internal static void DemandPressure(double pressurePa)
    {
        if (pressurePa is not (>= LowestPressurePa and <= HighestPressurePa))
        {
            throw new ArgumentOutOfRangeException(
                nameof(pressurePa), pressurePa, $"Expected {LowestPressurePa} to {HighestPressurePa} Pa.");
        }
    }
}
