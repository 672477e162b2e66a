using CureWatch.Readings;

namespace CureWatch.Forecasting;

/// <summary>The mean climate of one hour.</summary>
/// <param name="Hour">The hour, counted from 1970-01-01T00:00Z.</param>
/// <param name="Kelvins">Air temperature [K].</param>
/// <param name="LnVapourPressure">Natural logarithm of the vapour pressure in Pa [1].</param>
/// <remarks>The default is no climate at all.</remarks>
public readonly record struct HourMean(long Hour, double Kelvins, double LnVapourPressure)
{
    /// <summary>How far the coldest measured panel was above the air [K], most often below 0; null where none was measured.</summary>
    public double? PanelAboveAirK { get; init; }

    /// <summary>Natural logarithm of the vapour pressure outdoors in Pa [1]; null where nobody measured there.</summary>
    public double? OutdoorLn { get; init; }

    /// <summary>The hourly means of what a probe told.</summary>
    /// <param name="air">Its believed samples, in order of measuring.</param>
    /// <returns>The hours with at least one sample, in order.</returns>
    public static IEnumerable<HourMean> Of(Trail<Sample> air)
    {
        ArgumentNullException.ThrowIfNull(air);
        for (int first = 0; first < air.Count;)
        {
            (HourMean mean, first) = From(air, first);
            yield return mean;
        }
    }

    /// <summary>The mean of one hour of what a probe told.</summary>
    /// <param name="air">Its believed samples, in order of measuring.</param>
    /// <param name="hour">The hour, counted from 1970-01-01T00:00Z.</param>
    /// <returns>The mean; null where no sample lies in it.</returns>
    /// <remarks>Samples count alike, however they lie within the hour. Source (choice): a probe reports at its own pace, and an hour is a mean.</remarks>
    public static HourMean? Of(Trail<Sample> air, long hour)
    {
        ArgumentNullException.ThrowIfNull(air);
        int first = air.CountWhile(hour, static (in s, border) => HourValue.HourOf(s.At) < border);
        return first < air.Count && HourValue.HourOf(air[first].At) == hour ? From(air, first).Mean : null;
    }

    private static (HourMean Mean, int Next) From(Trail<Sample> air, int first)
    {
        long hour = HourValue.HourOf(air[first].At);
        double kelvins = 0, logarithms = 0;
        int next = first;
        for (; next < air.Count && HourValue.HourOf(air[next].At) == hour; next++)
        {
            kelvins += air[next].Kelvins;
            logarithms += Math.Log(air[next].VapourPressurePa);
        }

        int count = next - first;
        return (new HourMean(hour, kelvins / count, logarithms / count), next);
    }
}
