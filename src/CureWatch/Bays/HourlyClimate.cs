using CureWatch.Forecasting;
using CureWatch.Panels;
using CureWatch.Readings;

namespace CureWatch.Bays;

/// <summary>Tells a bay's forecaster the mean of each hour, once no reading of it may come any more.</summary>
internal static class HourlyClimate
{
    /// <summary>A panel further from its air than this [K] came in cold or is heated, and says nothing of other days. Source (choice).</summary>
    private const double FurthestPanelK = 6;

    /// <summary>Takes in the hours that are complete.</summary>
    /// <param name="shop">The shop at its present: where this bay does not measure outdoors, another may.</param>
    /// <param name="bay">The bay.</param>
    /// <returns>The bay with its forecaster up to date; an hour nobody measured in is left out.</returns>
    public static BayState Hear(Shop shop, BayState bay)
    {
        long complete = HourValue.HourOf(shop.Now - ProbeLog.LatestArrival) - 1;
        if (bay.HeardThrough >= complete)
        {
            return bay;
        }

        ClimateForecaster forecaster = bay.Forecaster;
        long first = bay.HeardThrough is { } heard ? Math.Max(heard + 1, complete - DailyCourse.Window) : complete;
        for (long hour = first; hour <= complete; hour++)
        {
            forecaster = MeanOf(shop, bay, hour) is { } mean ? forecaster.Hear(mean) : forecaster;
        }

        return bay with { Forecaster = forecaster, HeardThrough = complete };
    }

    /// <summary>Several probes count alike, however often each of them reports.</summary>
    private static HourMean? MeanOf(Shop shop, BayState bay, long hour)
    {
        double kelvins = 0, logarithms = 0;
        double? coldestK = null;
        int probes = 0;
        for (int i = 0; i < bay.Logs.Length; i++)
        {
            ProbeMount mount = bay.Plan.Probes[i];
            if (StoodStill(bay.Logs[i], hour))
            {
                continue;
            }

            if (mount.Probe.Measures == Measures.Air && PlaceAir.Of(mount.Place) == Place.Outside && HourMean.Of(bay.Logs[i].Air, hour) is { } mean)
            {
                kelvins += mean.Kelvins;
                logarithms += mean.LnVapourPressure;
                probes++;
            }

            if (PlaceAir.Of(mount.Place) == Place.Outside && mount.Probe.Measures != Measures.Outdoor && PanelMeanOf(bay, i, hour) is { } panelK)
            {
                coldestK = panelK >= coldestK ? coldestK : panelK;
            }
        }

        return probes == 0 ? null : new HourMean(hour, kelvins / probes, logarithms / probes)
        {
            PanelAboveAirK = coldestK - (kelvins / probes) is { } above && Math.Abs(above) <= FurthestPanelK ? above : null,
            OutdoorLn = OutdoorLnOf(shop, bay, hour),
        };
    }

    /// <summary>What a probe repeated tells nothing of other days, where it is sure that it was stuck.</summary>
    private static bool StoodStill(ProbeLog log, long hour)
    {
        DateTimeOffset from = HourValue.StartOf(hour);
        foreach (Still still in log.Standing.Stills)
        {
            if (!still.MayBeBorneOut && still.Covers(from, from.AddHours(1)))
            {
                return true;
            }
        }

        return false;
    }

    /// <summary>What is outdoors is outdoors for every bay: its own probe goes before another's.</summary>
    private static double? OutdoorLnOf(Shop shop, BayState bay, long hour)
    {
        foreach (ProbeLog log in bay.Logs.Concat(shop.WithOutdoors.Where(b => b != bay.Plan.Bay).SelectMany(b => shop.Bays[b].Logs)))
        {
            if (log.Probe.Measures == Measures.Outdoor && HourMean.Of(log.Air, hour) is { } outdoors)
            {
                return outdoors.LnVapourPressure;
            }
        }

        return null;
    }

    /// <summary>The mean of a panel probe over an hour; null where it said nothing, or told of a surface under a lamp.</summary>
    private static double? PanelMeanOf(BayState bay, int index, long hour)
    {
        Trail<Sample> panel = bay.Logs[index].Panel;
        double kelvins = 0;
        int count = 0;
        for (int s = panel.CountWhile((in p) => HourValue.HourOf(p.At) < hour); s < panel.Count && HourValue.HourOf(panel[s].At) == hour; s++)
        {
            if (LampHeat.LentTo(bay, index, own: null).Any(l => l.Covers(panel[s].At)))
            {
                return null;
            }

            kelvins += panel[s].Kelvins;
            count++;
        }

        return count > 0 ? kelvins / count : null;
    }
}
