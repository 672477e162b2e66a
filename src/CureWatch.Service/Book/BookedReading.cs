namespace CureWatch.Service.Book;

/// <summary>A believed reading as the probe told it; its calibration is in the settings.</summary>
/// <param name="At">When it was measured.</param>
/// <param name="TemperatureC">Temperature of the air or the panel [°C].</param>
/// <param name="HumidityPct">Relative humidity [%]; null for a panel.</param>
/// <remarks>The default is no reading anyone took.</remarks>
internal readonly record struct BookedReading(DateTimeOffset At, double TemperatureC, double? HumidityPct);
