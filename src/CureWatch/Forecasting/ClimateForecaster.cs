using System.Collections.Immutable;

namespace CureWatch.Forecasting;

/// <summary>Forecasts the climate of a bay: its temperature and its moisture, each by itself.</summary>
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

    /// <summary>A forecaster that has heard nothing.</summary>
    /// <param name="leads">The leads to keep account of [h], rising.</param>
    /// <returns>The forecaster.</returns>
    public static ClimateForecaster New(ImmutableArray<int> leads) =>
        new(SeriesForecaster.New(AssumedDeviationK, leads), SeriesForecaster.New(AssumedDeviationOfLn, leads));

    /// <summary>Takes in the mean climate of an hour.</summary>
    /// <param name="mean">The hour, after every hour heard before.</param>
    /// <returns>The forecaster after it.</returns>
    public ClimateForecaster Hear(HourMean mean) => new(
        Kelvins.Hear(new HourValue(mean.Hour, mean.Kelvins)),
        LnVapourPressure.Hear(new HourValue(mean.Hour, mean.LnVapourPressure)));
}
