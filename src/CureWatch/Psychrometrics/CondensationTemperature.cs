using CureWatch.Units;

namespace CureWatch.Psychrometrics;

/// <summary>The panel temperature at which water or frost begins to form: the dew point from 0 °C up, the frost point below.</summary>
/// <remarks>Below 0 °C the frost point is the higher of the two, so taking it is the safe choice.</remarks>
public static class CondensationTemperature
{
    /// <summary>Condensation temperature of air.</summary>
    /// <param name="air">Air temperature [°C], −60 to 80.</param>
    /// <param name="humidity">Relative humidity over liquid water [%], above 0, up to 100.</param>
    /// <returns>Condensation temperature [°C]; never below the dew point, and above it only under 0 °C.</returns>
    /// <remarks>
    /// Equation: T_c = T_d where T_d ≥ 0 °C, else T_f.
    /// Source (choice): the higher of two laws, see <see cref="DewPoint"/> and <see cref="FrostPoint"/>.
    /// Edges: in freezing air near saturation it lies above the air: frost forms on a panel that is as cold as the air.
    /// </remarks>
    /// <exception cref="ArgumentOutOfRangeException">An input is outside its range, a default humidity included.</exception>
    public static Celsius Of(Celsius air, RelativeHumidity humidity)
    {
        Celsius dewPoint = DewPoint.Of(air, humidity);
        return dewPoint.Degrees >= 0 ? dewPoint : FrostPoint.BelowFreezing(Vapour.LnPressure(air, humidity));
    }

    /// <summary>Condensation temperature of air by its vapour pressure.</summary>
    /// <param name="vapourPressurePa">Partial pressure of the water vapour [Pa], 0.005 to 100 000.</param>
    /// <returns>Condensation temperature [°C], rising with pressure.</returns>
    /// <remarks>
    /// Equation: T_c = T_d where T_d ≥ 0 °C, else T_f.
    /// Source (choice): as for <see cref="Of"/>.
    /// Edges: none beyond those of the two laws.
    /// </remarks>
    /// <exception cref="ArgumentOutOfRangeException">The pressure is outside its range, NaN included.</exception>
    public static Celsius OfPressure(double vapourPressurePa)
    {
        Celsius dewPoint = DewPoint.OfPressure(vapourPressurePa);
        return dewPoint.Degrees >= 0 ? dewPoint : FrostPoint.BelowFreezing(Math.Log(vapourPressurePa));
    }
}
