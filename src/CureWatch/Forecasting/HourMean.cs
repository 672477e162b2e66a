using CureWatch.Readings;

namespace CureWatch.Forecasting;

/// <summary>The mean climate of one hour.</summary>
/// <param name="Hour">The hour, counted from 1970-01-01T00:00Z.</param>
/// <param name="Kelvins">Air temperature [K].</param>
/// <param name="LnVapourPressure">Natural logarithm of the vapour pressure in Pa [1].</param>
/// <remarks>The default is no climate at all.</remarks>
public readonly record struct HourMean(long Hour, double Kelvins, double LnVapourPressure)
{
    /// <summary>The hourly means of what a probe told.</summary>
    /// <param name="air">Its believed samples, in order of measuring.</param>
    /// <returns>The hours with at least one sample, in order.</returns>
    /// <remarks>Samples count alike, however they lie within the hour. Source (choice): a probe reports at its own pace, and an hour is a mean.</remarks>
    public static IEnumerable<HourMean> Of(Trail<Sample> air)
    {
        ArgumentNullException.ThrowIfNull(air);
        int first = 0;
        while (first < air.Count)
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
            yield return new HourMean(hour, kelvins / count, logarithms / count);
            first = next;
        }
    }
}
