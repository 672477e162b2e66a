namespace CureWatch.Readings;

/// <summary>A sensor, and how far it is trusted.</summary>
/// <param name="Id">The probe's id, unique in its bay.</param>
/// <param name="Measures">What it measures.</param>
/// <param name="OffsetTemperatureK">Added to its temperature [K] (calibration).</param>
/// <param name="OffsetHumidityPct">Added to its humidity [% RH] (calibration).</param>
/// <param name="AccuracyTemperatureK">Its data sheet's ± limit [K], above zero.</param>
/// <param name="AccuracyHumidityPct">Its data sheet's ± limit [% RH], above zero.</param>
/// <param name="Every">How often it reports.</param>
public sealed record Probe(
    string Id,
    Measures Measures,
    double OffsetTemperatureK,
    double OffsetHumidityPct,
    double AccuracyTemperatureK,
    double AccuracyHumidityPct,
    TimeSpan Every)
{
    /// <summary>How long without a reading before the probe counts as silent: three reports missed.</summary>
    public TimeSpan SilentAfter => 3 * Every;
}

/// <summary>What a probe measures.</summary>
public enum Measures
{
    /// <summary>Temperature and humidity of the air.</summary>
    Air,

    /// <summary>Temperature of a panel.</summary>
    Panel,

    /// <summary>Temperature and humidity outdoors.</summary>
    Outdoor,
}
