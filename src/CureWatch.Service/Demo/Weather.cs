using CureWatch.Psychrometrics;
using CureWatch.Units;

namespace CureWatch.Service.Demo;

/// <summary>An early day in March outdoors. Source (choice): every number.</summary>
internal static class Weather
{
    private const double MeanC = 7, SwingC = 4, VapourPa = 800, MostSaturated = 0.95;
    private static readonly TimeSpan WarmestAt = TimeSpan.FromHours(15 - 7);

    /// <summary>The yard at a time since the start of the day.</summary>
    public static (double YardC, double YardPa) At(TimeSpan since)
    {
        double yardC = MeanC + (SwingC * Math.Cos(2 * Math.PI * ((since - WarmestAt) / TimeSpan.FromDays(1))));
        double saturatedPa = SaturationPressure.OverWaterPa(yardC + Celsius.KelvinsAtZero);
        return (yardC, Math.Min(VapourPa, MostSaturated * saturatedPa));
    }
}
