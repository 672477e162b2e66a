using CureWatch.Forecasting;
using CureWatch.Panels;
using CureWatch.Readings;

namespace CureWatch.Bays;

/// <summary>Tells a bay's forecaster the mean of each hour, once no reading of it may come any more.</summary>
internal static class HourlyClimate
{
    /// <summary>Takes in the hours that are complete.</summary>
    /// <param name="bay">The bay.</param>
    /// <param name="now">The present.</param>
    /// <returns>The bay with its forecaster up to date; an hour nobody measured in is left out.</returns>
    public static BayState Hear(BayState bay, DateTimeOffset now)
    {
        long complete = HourValue.HourOf(now - ProbeLog.LatestArrival) - 1;
        if (bay.HeardThrough >= complete)
        {
            return bay;
        }

        ClimateForecaster forecaster = bay.Forecaster;
        long first = bay.HeardThrough is { } heard ? Math.Max(heard + 1, complete - DailyCourse.Window) : complete;
        for (long hour = first; hour <= complete; hour++)
        {
            forecaster = MeanOf(bay, hour) is { } mean ? forecaster.Hear(mean) : forecaster;
        }

        return bay with { Forecaster = forecaster, HeardThrough = complete };
    }

    /// <summary>Several probes count alike, however often each of them reports.</summary>
    private static HourMean? MeanOf(BayState bay, long hour)
    {
        double kelvins = 0, logarithms = 0;
        int probes = 0;
        for (int i = 0; i < bay.Logs.Length; i++)
        {
            ProbeMount mount = bay.Plan.Probes[i];
            if (mount.Probe.Measures == Measures.Air && PlaceAir.Of(mount.Place) == Place.Outside && HourMean.Of(bay.Logs[i].Air, hour) is { } mean)
            {
                kelvins += mean.Kelvins;
                logarithms += mean.LnVapourPressure;
                probes++;
            }
        }

        return probes > 0 ? new HourMean(hour, kelvins / probes, logarithms / probes) : null;
    }
}
