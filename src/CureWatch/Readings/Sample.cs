using CureWatch.Psychrometrics;

namespace CureWatch.Readings;

/// <summary>What a probe's believed reading says, corrected by its calibration.</summary>
/// <param name="At">When it was measured.</param>
/// <param name="Kelvins">Temperature of the air or the panel [K].</param>
/// <param name="VapourPressurePa">Vapour pressure of the air [Pa]; 0 for a panel.</param>
/// <param name="HumidityPct">Relative humidity of the air [%]; 0 for a panel.</param>
/// <param name="HeldWithinK">How far the temperature may be off, where it is not the one measured but held [K]; 0 where it was measured.</param>
/// <remarks>The default is no reading anyone took: 0 K at the beginning of time.</remarks>
public readonly record struct Sample(DateTimeOffset At, double Kelvins, double VapourPressurePa, double HumidityPct, double HeldWithinK = 0)
{
    /// <summary>What it says of the moisture of an air whose temperature is another than the one measured.</summary>
    /// <param name="held">The temperature.</param>
    /// <returns>The sample; no moister than air of that temperature can be.</returns>
    public Sample HeldAt(HeldTemperature held)
    {
        double saturationPa = SaturationPressure.OverWaterPa(held.Kelvins);
        double pascals = Math.Min(VapourPressurePa, saturationPa);
        return new Sample(At, held.Kelvins, pascals, Math.Min(100, 100 * pascals / saturationPa), held.WithinK);
    }
}
