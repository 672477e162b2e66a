namespace CureWatch.Service.Settings;

/// <summary>A row of a readings file, as it stands there: whether it is believed, the library says.</summary>
/// <param name="Line">The line it starts on, from 1.</param>
/// <param name="Time">When it was measured, in UTC.</param>
/// <param name="ReceivedAt">When it arrived, in UTC; null where the file does not say.</param>
/// <param name="Bay">The bay's id.</param>
/// <param name="Probe">The probe's id.</param>
/// <param name="AirC">Air temperature [°C], finite; null where not measured.</param>
/// <param name="HumidityPct">Relative humidity [%], finite; null where not measured.</param>
/// <param name="PanelC">Panel temperature [°C], finite; null where not measured.</param>
internal readonly record struct ReadingRow(
    int Line, DateTimeOffset Time, DateTimeOffset? ReceivedAt, string Bay, string Probe, double? AirC, double? HumidityPct, double? PanelC)
{
    /// <summary>The number the sensor gave it; null where it counts none.</summary>
    public long? Sequence { get; init; }

    /// <summary>Whether the sensor said when it measured; else <see cref="Time"/> is when it arrived.</summary>
    public bool HasClock { get; init; } = true;
}
