namespace CureWatch.Readings;

/// <summary>What a probe repeats: all it says, or its humidity alone.</summary>
/// <param name="Whole">How long it is used to repeat all it says.</param>
/// <param name="Humidity">Whether its humidity stands still while its temperature moves; null where it tells none.</param>
internal sealed record Repetition(ProbeHabit Whole, StuckHumidity? Humidity)
{
    private static readonly TimeSpan LongestPause = TimeSpan.FromMinutes(30);

    /// <summary>Begins with a first reading. A run is broken by a silence, and by no less than half an hour without a word where the probe is slower than it says.</summary>
    public static Repetition Of(Probe probe, RawReading raw, DateTimeOffset at)
    {
        TimeSpan silence = probe.SilentAfter > LongestPause ? probe.SilentAfter : LongestPause;
        return new Repetition(
            ProbeHabit.Of(at, All(raw), silence),
            (raw.AirC, raw.HumidityPct) is ({ } airC, { } pct) ? StuckHumidity.Of(at, airC, pct, silence) : null);
    }

    public bool IsFrozenAt(RawReading raw) =>
        Whole.IsFrozenAt(raw.MeasuredAt, All(raw))
        || (Humidity is not null && (raw.AirC, raw.HumidityPct) is ({ } airC, { } pct) && Humidity.IsStuckAt(raw.MeasuredAt, airC, pct));

    public Repetition After(RawReading raw, DateTimeOffset at) => new(
        Whole.After(at, All(raw)),
        Humidity is not null && (raw.AirC, raw.HumidityPct) is ({ } airC, { } pct) ? Humidity.After(at, airC, pct) : Humidity);

    private static (double, double, double) All(RawReading raw) => (raw.AirC ?? 0, raw.HumidityPct ?? 0, raw.PanelC ?? 0);
}
