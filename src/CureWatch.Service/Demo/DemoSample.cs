namespace CureWatch.Service.Demo;

/// <summary>What a probe of the demo measures, rounded as it tells it.</summary>
/// <param name="TemperatureC">Temperature [°C].</param>
/// <param name="HumidityPct">Relative humidity [%]; null where it measures none.</param>
internal readonly record struct DemoSample(double TemperatureC, double? HumidityPct);
