using CureWatch.Units;

namespace CureWatch.Psychrometrics;

/// <summary>The water vapour that air holds.</summary>
public static class Vapour
{
    /// <summary>Partial pressure of the water vapour in air.</summary>
    /// <param name="air">Air temperature [°C], −60 to 80.</param>
    /// <param name="humidity">Relative humidity over liquid water [%], above 0, up to 100.</param>
    /// <returns>Vapour pressure [Pa]; never above saturation over water at the air's temperature.</returns>
    /// <remarks>
    /// Equation: e = RH/100 · e_w(T).
    /// Source (law): the definition of relative humidity over liquid water, WMO-No. 8.
    /// Edges: below 1 % the humidity is taken as 1 % (<see cref="ClimateRange.RaisesHumidity"/> tells).
    /// </remarks>
    /// <exception cref="ArgumentOutOfRangeException">An input is outside its range, a default humidity included.</exception>
    public static double PressurePa(Celsius air, RelativeHumidity humidity) => Math.Exp(LnPressure(air, humidity));

    internal static double LnPressure(Celsius air, RelativeHumidity humidity)
    {
        ClimateRange.DemandAir(air);
        return SaturationPressure.LnOverWater(air.Kelvins) + Math.Log(UsedPercent(humidity) / 100);
    }

    internal static double UsedPercent(RelativeHumidity humidity)
    {
        if (humidity.Percent is not > 0)
        {
            throw new ArgumentOutOfRangeException(nameof(humidity), humidity.Percent, "Expected above 0 %: bone-dry air has no dew point.");
        }

        return Math.Max(humidity.Percent, ClimateRange.LeastHumidityPct);
    }
}
