namespace CureWatch.Readings;

/// <summary>What a sensor can have measured, and how far it can have moved since.</summary>
/// <remarks>
/// Source (choice): wide enough for a door opened in winter, steam beside the probe, and a steel panel under a strong lamp; narrow
/// enough for a broken wire. A change may be as large as a step plus a rate times the time between the two readings.
/// </remarks>
internal static class PlausibleChange
{
    private const double AirStepK = 10, AirRateKPerMinute = 5;

    /// <summary>No bay gets 40 K warmer or colder however long nobody looked [min of the rate].</summary>
    private const double MostMinutesOfAir = 6;

    private const double HumidityStepPct = 40, HumidityRatePctPerMinute = 20;
    private const double PanelStepK = 10, PanelRateKPerMinute = 40;

    /// <summary>Whether a sensor can have measured it; in fog a humidity probe may read above 100 % by as much as it may be off.</summary>
    public static bool IsInRange(RawReading raw, double accuracyHumidityPct) =>
        raw.AirC is null or (>= -40 and <= 80)
        && (raw.HumidityPct is not { } pct || (pct > 0 && pct <= 100 + accuracyHumidityPct))
        && raw.PanelC is null or (>= -40 and <= 200);

    public static bool Is(RawReading before, RawReading after)
    {
        double minutes = Math.Abs((after.MeasuredAt - before.MeasuredAt).TotalMinutes);
        return IsWithin(before.AirC, after.AirC, AirStepK + (AirRateKPerMinute * Math.Min(minutes, MostMinutesOfAir)))
            && IsWithin(before.HumidityPct, after.HumidityPct, HumidityStepPct + (HumidityRatePctPerMinute * minutes))
            && IsWithin(before.PanelC, after.PanelC, PanelStepK + (PanelRateKPerMinute * minutes));
    }

    private static bool IsWithin(double? before, double? after, double reach) =>
        before is not { } b || after is not { } a || Math.Abs(a - b) <= reach;
}
