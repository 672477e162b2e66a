using CureWatch.Panels;
using CureWatch.Psychrometrics;
using CureWatch.Readings;
using CureWatch.Units;

namespace CureWatch.Bays;

/// <summary>Whether a lamp warms an air probe, and what is taken for the air's temperature then.</summary>
/// <remarks>
/// <para>
/// A lamp heats the probe and not its water: its temperature rises, its vapour pressure does not, so its relative humidity falls. While a lamp burns
/// in its air, and for a while after, a probe that shows this against its last reading before the lamp is not believed for temperature. Source
/// (choice): a kelvin of rise; the dew point may have risen by what the probe's limits allow, and by 3 K/h as in an unwatched bay. Heating
/// that comes on meanwhile looks the same, and is not credited either: the careful side.
/// </para>
/// <para>
/// The temperature held is that of twins that did not rise so, else the one before the lamp; it may be off by what both probes may be, or by a kelvin and
/// 4 K for each hour since, which the bounds reckon with.
/// </para>
/// </remarks>
public static class LampGlow
{
    private const double LeastRiseK = 1;

    /// <summary>What is to be held in place of a reading's temperature.</summary>
    /// <param name="shop">The shop, the reading not taken in.</param>
    /// <param name="bay">The bay.</param>
    /// <param name="index">The probe's place in the plan.</param>
    /// <param name="raw">The reading, plausible by itself.</param>
    /// <returns>The temperature; null where the reading is believed as it is.</returns>
    public static HeldTemperature? Over(Shop shop, BayState bay, int index, RawReading raw)
    {
        ProbeLog log = bay.Logs[index];
        Place air = PlaceAir.Of(bay.Plan.Probes[index].Place);
        if (log.Probe.Measures != Measures.Air || bay.Lamps.IsEmpty || LitSince(shop, bay, air, raw.MeasuredAt) is not { } since
            || Unlit(log, since) is not { } before || !IsWarmed(log.Probe, before, log.Read(raw), since))
        {
            return null;
        }

        return Held(bay, index, raw.MeasuredAt, since, before);
    }

    private static HeldTemperature Held(BayState bay, int index, DateTimeOffset at, DateTimeOffset since, Sample before)
    {
        Sample[] twins =
        [
            .. ProbeTwins.Heard(bay, ProbeTwins.Of(bay.Plan, index), at)
                .Where(i => i != index && bay.Logs[i] is { OutvotedAt: null, Newest.HeldWithinK: 0 } twin && HasNotRisen(twin, since))
                .Select(i => bay.Logs[i].Newest!.Value),
        ];
        double limitK = bay.Logs[index].Probe.AccuracyTemperatureK;
        return twins.Length > 0
            ? new HeldTemperature(twins.Average(t => t.Kelvins), 2 * limitK)
            : new HeldTemperature(before.Kelvins, LeastRiseK + limitK + (BayDrift.TemperatureKPerHour * Math.Max(0, (at - before.At).TotalHours)));
    }

    /// <summary>Since when lamps may have warmed the air's probes without a pause to cool down in; null where none does.</summary>
    private static DateTimeOffset? LitSince(Shop shop, BayState bay, Place air, DateTimeOffset at)
    {
        DateTimeOffset? since = null;
        foreach (NearbyLamp lamp in bay.Lamps.Where(l => l.Air == air).OrderByDescending(l => l.From))
        {
            since = lamp.MayWarmAt(shop, since ?? at) ? lamp.From : since;
        }

        return since;
    }

    private static Sample? Unlit(ProbeLog log, DateTimeOffset since) =>
        log.Air.CountBefore(since) is > 0 and var before ? log.Air[before - 1] : null;

    private static bool IsWarmed(Probe probe, Sample before, Sample now, DateTimeOffset since)
    {
        if (now.Kelvins - before.Kelvins <= LeastRiseK || now.HumidityPct >= before.HumidityPct)
        {
            return false;
        }

        var doubt = new DewPointUncertainty(
            Celsius.FromKelvins(now.Kelvins), new RelativeHumidity(now.HumidityPct), probe.AccuracyTemperatureK, probe.AccuracyHumidityPct);
        double risenBy = DewPoint.OfPressure(now.VapourPressurePa).Kelvins - DewPoint.OfPressure(before.VapourPressurePa).Kelvins;
        return risenBy <= doubt.DewPointKelvins + (BayDrift.DewPointKPerHour * Math.Max(0, (now.At - since).TotalHours));
    }

    private static bool HasNotRisen(ProbeLog twin, DateTimeOffset since) =>
        Unlit(twin, since) is { } before && twin.Newest!.Value.Kelvins - before.Kelvins <= LeastRiseK;
}
