namespace CureWatch.Readings;

/// <summary>A reading as it came, before anyone believes it.</summary>
/// <param name="Bay">The bay it names.</param>
/// <param name="Probe">The probe it names.</param>
/// <param name="MeasuredAt">When the sensor claims to have measured.</param>
/// <param name="ReceivedAt">When it arrived here.</param>
/// <param name="AirC">Air temperature [°C]; null where not measured.</param>
/// <param name="HumidityPct">Relative humidity [%]; null where not measured.</param>
/// <param name="PanelC">Panel temperature [°C]; null where not measured.</param>
/// <param name="Sequence">The number the sensor gave it; null where it counts none.</param>
/// <param name="HasClock">Whether the sensor said when it measured; else that is when the reading arrived.</param>
public sealed record RawReading(
    string Bay,
    string Probe,
    DateTimeOffset MeasuredAt,
    DateTimeOffset ReceivedAt,
    double? AirC,
    double? HumidityPct,
    double? PanelC,
    long? Sequence = null,
    bool HasClock = true);
