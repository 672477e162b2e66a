using System.Collections.Immutable;

namespace CureWatch.Readings;

/// <summary>A sensor, and how far it is trusted.</summary>
/// <param name="Id">The probe's id, unique in its bay.</param>
/// <param name="Measures">What it measures.</param>
/// <param name="OffsetTemperatureK">Added to its temperature [K] until it was first calibrated with a date.</param>
/// <param name="OffsetHumidityPct">Added to its humidity [% RH] until it was first calibrated with a date.</param>
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
    /// <summary>When it was calibrated since, in order of their dates.</summary>
    public ImmutableArray<Calibration> Calibrations { get; init; } = [];

    /// <summary>How long without a reading before the probe counts as silent: three reports missed.</summary>
    public TimeSpan SilentAfter => Every + Every + Every;

    /// <summary>What is added to a reading.</summary>
    /// <param name="measuredAt">When it was measured.</param>
    /// <returns>The offsets of temperature [K] and humidity [% RH]: those of the last calibration by then.</returns>
    public (double TemperatureK, double HumidityPct) OffsetAt(DateTimeOffset measuredAt)
    {
        for (int i = Calibrations.Length - 1; i >= 0; i--)
        {
            if (Calibrations[i].From <= measuredAt)
            {
                return (Calibrations[i].TemperatureK, Calibrations[i].HumidityPct);
            }
        }

        return (OffsetTemperatureK, OffsetHumidityPct);
    }

    /// <summary>Whether another set-up of the probe corrects and limits its readings as this one does.</summary>
    /// <param name="other">The other.</param>
    /// <returns>False where what it says would be read otherwise.</returns>
    public bool ReadsAs(Probe other) => this with { Calibrations = other.Calibrations } == other && Calibrations.SequenceEqual(other.Calibrations);
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
