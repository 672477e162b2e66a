namespace CureWatch.Readings;

/// <summary>What a probe's believed reading says, corrected by its calibration.</summary>
/// <param name="At">When it was measured.</param>
/// <param name="Kelvins">Temperature of the air or the panel [K].</param>
/// <param name="VapourPressurePa">Vapour pressure of the air [Pa]; 0 for a panel.</param>
/// <param name="HumidityPct">Relative humidity of the air [%]; 0 for a panel.</param>
/// <remarks>The default is no reading anyone took: 0 K at the beginning of time.</remarks>
public readonly record struct Sample(DateTimeOffset At, double Kelvins, double VapourPressurePa, double HumidityPct);
