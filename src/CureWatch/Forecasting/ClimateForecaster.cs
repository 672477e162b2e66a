using System.Collections.Immutable;

namespace CureWatch.Forecasting;

/// <summary>Forecasts the climate of a bay: its temperature, its moisture, and how far its panels are off its air, each by itself.</summary>
/// <param name="Kelvins">The forecaster of the air temperature [K].</param>
/// <param name="LnVapourPressure">The forecaster of the logarithm of the vapour pressure in Pa [1].</param>
/// <remarks>
/// Moisture and not relative humidity: air that is heated holds the moisture it had. Source (choice): the long-run deviations assumed where
/// nothing is known, as of a hall without heating in spring.
/// </remarks>
public sealed record ClimateForecaster(SeriesForecaster Kelvins, SeriesForecaster LnVapourPressure)
{
    private const double AssumedDeviationK = 4;
    private const double AssumedDeviationOfLn = 0.25;
    private const double AssumedPanelDeviationK = 1;
    private const int OutdoorHours = 48;

    /// <summary>The forecaster of how far the coldest measured panel is above the air [K]; it has heard nothing where no panel is measured.</summary>
    public required SeriesForecaster Panel { get; init; }

    /// <summary>The logarithm of the vapour pressure outdoors [1], of the last two days.</summary>
    public ImmutableArray<HourValue> Outdoors { get; init; } = [];

    /// <summary>A forecaster that has heard nothing.</summary>
    /// <param name="leads">The leads to keep account of [h], rising.</param>
    /// <returns>The forecaster.</returns>
    public static ClimateForecaster New(ImmutableArray<int> leads) =>
        new(SeriesForecaster.New(AssumedDeviationK, leads), SeriesForecaster.New(AssumedDeviationOfLn, leads))
        {
            Panel = SeriesForecaster.New(AssumedPanelDeviationK, leads),
        };

    /// <summary>Takes in the mean climate of an hour.</summary>
    /// <param name="mean">The hour, after every hour heard before.</param>
    /// <returns>The forecaster after it.</returns>
    public ClimateForecaster Hear(HourMean mean) => new(
        Kelvins.Hear(new HourValue(mean.Hour, mean.Kelvins)),
        LnVapourPressure.Hear(new HourValue(mean.Hour, mean.LnVapourPressure)))
    {
        Panel = mean.PanelAboveAirK is { } above ? Panel.Hear(new HourValue(mean.Hour, above)) : Panel,
        Outdoors = mean.OutdoorLn is { } ln ? [.. Outdoors.SkipWhile(o => mean.Hour - o.Hour >= OutdoorHours), new HourValue(mean.Hour, ln)] : Outdoors,
    };
}
