using CureWatch.Panels;
using CureWatch.Psychrometrics;
using CureWatch.Readings;
using CureWatch.Units;

namespace CureWatch.Bays;

/// <summary>What a probe at fault would say if it were put right now: it goes on from what is likely.</summary>
internal static class MendedReading
{
    /// <summary>A value that was repeated is left by more than a step, so that it is not taken for right after all. Source (choice).</summary>
    private const double LeastLeapK = 0.5, LeastLeapPct = 1, Steps = 2;

    /// <summary>Whether a probe is silent, not believed, or stands still.</summary>
    public static bool IsNeededBy(ProbeLog log, DateTimeOffset now) =>
        log is { OutvotedAt: null, Newest: not null, Probe.Measures: not Measures.Outdoor }
        && (log.Standing.Stills.Any(s => s.To is null) || Lapses.Of(log, now) is [.., { To: null }]);

    /// <summary>The reading.</summary>
    /// <param name="bay">The bay.</param>
    /// <param name="index">The probe's place in its plan.</param>
    /// <param name="at">When it comes, after all that was heard.</param>
    /// <returns>The reading as the probe would send it, without its offsets; null where nobody ever measured the air.</returns>
    public static RawReading? Of(BayState bay, int index, DateTimeOffset at)
    {
        ProbeMount mount = bay.Plan.Probes[index];
        ProbeLog log = bay.Logs[index];
        var watch = new WatchPoint(bay.Plan.Bay, mount.Place, mount.Material ?? Material.Steel).WatchIn(bay);
        if (watch.Over(at, at, at) is not { AtEnd: var air })
        {
            return null;
        }

        (double offsetK, double offsetPct) = log.Probe.OffsetAt(at);
        if (log.Probe.Measures == Measures.Panel)
        {
            Sample last = log.Standing.Open(Quantity.Temperature)?.From ?? log.Panel.Last;
            double thenKelvins = watch.Over(last.At, last.At, at)?.AtStart.AirKelvins ?? air.AirKelvins;
            double panelC = Celsius.FromKelvins(last.Kelvins + air.AirKelvins - thenKelvins).Degrees - offsetK;
            return new RawReading(bay.Plan.Bay, log.Probe.Id, at, at, null, null, Leaving(log, Quantity.Temperature, panelC, LeastLeapK));
        }

        double airC = Leaving(log, Quantity.Temperature, Celsius.FromKelvins(air.AirKelvins).Degrees - offsetK, LeastLeapK);
        double pct = Math.Min(100, 100 * air.VapourPressurePa / SaturationPressure.OverWaterPa(air.AirKelvins));
        return new RawReading(bay.Plan.Bay, log.Probe.Id, at, at, airC, Math.Clamp(Leaving(log, Quantity.Humidity, pct - offsetPct, LeastLeapPct), 1, 100), null);
    }

    private static double Leaving(ProbeLog log, Quantity what, double likely, double least)
    {
        if (log.Standing.Open(what) is null || log.Standing.Of(what) is not { } standing)
        {
            return likely;
        }

        double leap = Math.Max(least, double.IsFinite(standing.Step) ? Steps * standing.Step : 0);
        return Math.Abs(likely - standing.Value) > leap ? likely
            : standing.Value + leap < 100 ? standing.Value + leap
            : standing.Value - leap;
    }
}
