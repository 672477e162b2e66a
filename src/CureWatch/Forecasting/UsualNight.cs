namespace CureWatch.Forecasting;

/// <summary>How a bay goes through a night where its own days are too few to tell: what bays usually do, and what it did the night before.</summary>
/// <remarks>
/// Equation: without heating T(h) = T₀ + (T_out − T₀)(1 − e^(−n/τ)), n the hours of night until then. With one the air first falls to what the walls are, when the
/// heating goes back at lock-up, a quarter of what it is above outdoors within an hour, and then sinks by a kelvin or two. The vapour pressure drifts towards the one outdoors, but not
/// in the first hours after lock-up: doors stay shut then, and what the floor lost to them goes on drying into the bay. Source (choice), common practice without a
/// source: the times and shares. Where yesterday's same hours were measured, the change then counts for two fifths; where nobody measures
/// outdoors, it is taken to be drier there by 15 %, and colder by 8 K than a heated bay, by 3 K than another or by what its cooling tells. What the air falls to
/// when the heating goes back are the walls, and a panel in the room shows them: it stands half-way between the air and what it sees (law: radiation of 5 W/m²K beside
/// convection of 3 to 5 in still air), so that the fall is no more than twice what the coldest panel is below the air, and a kelvin for the probes.
/// </remarks>
internal sealed class UsualNight
{
    private const double CoolingHours = 11;
    private const double LeakHours = 11;
    private const double DryingHours = 3;
    private const double HeatedAboveOutdoorsK = 8, UnheatedAboveOutdoorsK = 3;
    private const double CoolingSinceHours = 2;
    private const double NightBelowEveningK = 2.5, NightHours = 14;
    private const double SetBackShare = 0.25, SetBackHours = 0.8, SetBackDoubtK = 1.3;
    private const double WallsBelowAirPerPanel = 2, WallsDoubtK = 1;
    private const double SinksK = 2.2, SinksHours = 5;
    private const double ShareOfYesterday = 0.4;
    private const double IndoorMoisture = 0.15;
    private const int HoursPerDay = 24;

    private readonly AirNow _now;
    private readonly ClimateForecaster _known;
    private readonly double _hour;

    public UsualNight(AirNow now, ClimateForecaster known, double hour) => (_now, _known, _hour) = (now, known, hour);

    /// <summary>How the air changed over the last hour beyond what is usual [K/h].</summary>
    public double ChangeOfKelvins => TrendOf(_known.Kelvins, _now.AirKelvins, At(1).Kelvins - _now.AirKelvins);

    /// <summary>How its moisture did [1/h].</summary>
    public double ChangeOfLn => TrendOf(_known.LnVapourPressure, Math.Log(_now.VapourPressurePa), At(1).LnPa - Math.Log(_now.VapourPressurePa));

    /// <summary>What is likely some hours ahead.</summary>
    public (double Kelvins, double LnPa) At(double ahead)
    {
        double gone = _now.NightHoursGone, night = _now.NightHoursBefore(ahead);
        double aboveK = AboveK;
        double coolsK = _now.IsHeatedAtNight
            ? (SetBackK(aboveK) * Within(night, SetBackHours)) + Math.Min(aboveK * (1 - SetBackShare), SinksK * Within(night, SinksHours))
            : aboveK * (1 - Math.Exp(-night / CoolingHours));

        double ln = Math.Log(_now.VapourPressurePa);
        double leaks = Math.Max(0, gone + night - DryingHours) - Math.Max(0, gone - DryingHours);
        double towardsLn = _now.Outdoors is { } air ? Math.Log(air.VapourPressurePa) - ln : -IndoorMoisture;
        return (
            _now.AirKelvins + Mixed(-coolsK, YesterdayOf(_known.Kelvins, ahead)),
            ln + Mixed(towardsLn * (1 - Math.Exp(-leaks / LeakHours)), YesterdayOf(_known.LnVapourPressure, ahead)));
    }

    /// <summary>Standard deviations of both some hours ahead.</summary>
    public (double Kelvins, double Ln) DoubtAt(double ahead)
    {
        double kelvins = 0.2 + (1.8 * (1 - Math.Exp(-ahead / 8)));
        if (!_now.IsHeatedAtNight)
        {
            return (kelvins, 0.02 + (0.16 * (1 - Math.Exp(-ahead / 9))));
        }

        double setBackK = SetBackDoubtK * SetBackK(AboveK) / Math.Max(AboveK * SetBackShare, double.Epsilon) * Within(_now.NightHoursBefore(ahead), SetBackHours);
        return (Math.Sqrt((kelvins * kelvins) + (setBackK * setBackK)), 0.03 + (0.2 * (1 - Math.Exp(-ahead / 7))));
    }

    /// <summary>How much warmer the bay is than it gets outdoors in the night [K].</summary>
    private double AboveK => Math.Max(AboveOutdoorsK + (NightBelowEveningK * Math.Max(0, 1 - (_now.NightHoursGone / NightHours))), CoolingTellsK);

    /// <summary>How far the air falls to the walls once the heating goes back [K].</summary>
    private double SetBackK(double aboveK) => _now.ColdestPanelKelvins is { } panel
        ? Math.Min(aboveK * SetBackShare, (WallsBelowAirPerPanel * Math.Max(0, _now.AirKelvins - panel)) + WallsDoubtK)
        : aboveK * SetBackShare;

    /// <summary>How much warmer the bay is than the air outdoors [K].</summary>
    private double AboveOutdoorsK => _now.Outdoors is { } outdoors ? _now.AirKelvins - outdoors.Kelvins
        : _now.IsHeatedAtNight ? HeatedAboveOutdoorsK : UnheatedAboveOutdoorsK;

    /// <summary>How much colder it must be outdoors for a bay that nothing heats to cool as it did [K]; 0 or more.</summary>
    private double CoolingTellsK => _now is { IsHeatedAtNight: false, Outdoors: null } && MeanAt(_known.Kelvins, _hour - CoolingSinceHours) is { } before
        ? Math.Max(0, (before - _now.AirKelvins) / CoolingSinceHours * CoolingHours)
        : 0;

    /// <summary>The share of something that begins at lock-up and fades which falls into the next hours of night.</summary>
    private double Within(double night, double fadesHours) =>
        Math.Exp(-_now.NightHoursGone / fadesHours) - Math.Exp(-(_now.NightHoursGone + night) / fadesHours);

    private static double Mixed(double usual, double? yesterday) =>
        yesterday is { } before ? usual + (ShareOfYesterday * (before - usual)) : usual;

    private double? YesterdayOf(SeriesForecaster series, double ahead) =>
        MeanAt(series, _hour - HoursPerDay) is { } then && MeanAt(series, _hour - HoursPerDay + ahead) is { } later ? later - then : null;

    private double TrendOf(SeriesForecaster series, double value, double usual) =>
        MeanAt(series, _hour - 1) is { } before ? Math.Clamp(value - before - usual, -MostTrend(series), MostTrend(series)) : 0;

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
