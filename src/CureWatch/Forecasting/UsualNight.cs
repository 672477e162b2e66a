namespace CureWatch.Forecasting;

/// <summary>How a bay goes through a night where its own days are too few to tell: what bays usually do, and what it did the night before.</summary>
/// <remarks>
/// Equation: T(h) = T₀ + (T_night − T₀)(1 − e^(−n/τ)), n the hours of night until then; the vapour pressure drifts towards the one
/// outdoors. Source (choice), common practice without a source: a shut hall that is not heated loses half of what it is above outdoors in ten hours,
/// one with a heating a third of it; leaks change the air every five hours. Where yesterday's same hours were measured, the change
/// then counts for two fifths; where nobody measures outdoors, it is taken to be drier there by 15 %.
/// </remarks>
internal sealed class UsualNight
{
    private const double CoolingHours = 14;
    private const double LeakHours = 5;
    private const double WithoutOutdoorsK = -8;
    private const double NightBelowEveningK = 2;
    private const double ShareLeftByHeating = 0.5;
    private const double ShareOfYesterday = 0.4;
    private const double IndoorMoisture = 0.15;
    private const int HoursPerDay = 24;

    private readonly AirNow _now;
    private readonly ClimateForecaster _known;
    private readonly double _hour;

    public UsualNight(AirNow now, ClimateForecaster known, double hour) => (_now, _known, _hour) = (now, known, hour);

    /// <summary>What is likely some hours ahead.</summary>
    public (double Kelvins, double LnPa) At(double ahead)
    {
        double night = _now.NightHoursBefore(ahead);
        double towardsK = _now.Outdoors is { } outdoors ? outdoors.Kelvins - NightBelowEveningK - _now.AirKelvins : WithoutOutdoorsK;
        double coolsK = (_now.IsHeatedAtNight && !new NightTrend(_now).IsLeftToCool(ChangeOfKelvins) ? ShareLeftByHeating : 1) * Math.Min(0, towardsK) * (1 - Math.Exp(-night / CoolingHours));
        double ln = Math.Log(_now.VapourPressurePa);
        double leaksLn = _now.Outdoors is { } air ? (Math.Log(air.VapourPressurePa) - ln) * (1 - Math.Exp(-night / LeakHours)) : -IndoorMoisture * (1 - Math.Exp(-night / LeakHours));
        return (
            _now.AirKelvins + Mixed(coolsK, YesterdayOf(_known.Kelvins, ahead)),
            ln + Mixed(leaksLn, YesterdayOf(_known.LnVapourPressure, ahead)));
    }

    /// <summary>How the air changed over the last hour [K/h].</summary>
    public double ChangeOfKelvins => TrendOf(_known.Kelvins, _now.AirKelvins);

    /// <summary>How its moisture did [1/h].</summary>
    public double ChangeOfLn => TrendOf(_known.LnVapourPressure, Math.Log(_now.VapourPressurePa));

    /// <summary>Standard deviations of both some hours ahead.</summary>
    public static (double Kelvins, double Ln) DoubtAt(double ahead) =>
        (0.3 + (2 * (1 - Math.Exp(-ahead / 6))), 0.02 + (0.12 * (1 - Math.Exp(-ahead / 5))));

    private static double Mixed(double usual, double? yesterday) =>
        yesterday is { } before ? usual + (ShareOfYesterday * (before - usual)) : usual;

    private double? YesterdayOf(SeriesForecaster series, double ahead) =>
        MeanAt(series, _hour - HoursPerDay) is { } then && MeanAt(series, _hour - HoursPerDay + ahead) is { } later ? later - then : null;

    private double TrendOf(SeriesForecaster series, double value) =>
        MeanAt(series, _hour - 1) is { } before ? Math.Clamp(value - before, -MostTrend(series), MostTrend(series)) : 0;

    /// <summary>A car rolled in and a door held open are no trend: no faster than a third of the long-run deviation an hour.</summary>
    private static double MostTrend(SeriesForecaster series) => series.AssumedDeviation / 3;

    private static double? MeanAt(SeriesForecaster series, double hour)
    {
        long before = (long)Math.Floor(hour);
        double? first = null, second = null;
        for (int i = series.Past.Length - 1; i >= 0 && series.Past[i].Hour >= before; i--)
        {
            first = series.Past[i].Hour == before ? series.Past[i].Value : first;
            second = series.Past[i].Hour == before + 1 ? series.Past[i].Value : second;
        }

        return first is { } f ? f + ((hour - before) * ((second ?? f) - f)) : null;
    }
}
