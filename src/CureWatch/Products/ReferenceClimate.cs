using CureWatch.Units;

namespace CureWatch.Products;

/// <summary>The climate at which a sheet's times hold.</summary>
/// <param name="Temperature">Air and panel temperature [°C].</param>
/// <param name="Humidity">Relative humidity [%].</param>
public sealed record ReferenceClimate(Celsius Temperature, RelativeHumidity Humidity)
{
    /// <summary>20 °C and 50 %, where a sheet states none. Source (choice): the room climate most sheets are written for.</summary>
    public static ReferenceClimate Usual { get; } = new(new Celsius(20), new RelativeHumidity(50));
}
