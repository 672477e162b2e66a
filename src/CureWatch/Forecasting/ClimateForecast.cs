using CureWatch.Panels;
using CureWatch.Psychrometrics;

namespace CureWatch.Forecasting;

/// <summary>The air of a bay as it is expected from an instant on.</summary>
/// <param name="From">The instant.</param>
/// <param name="Kelvins">Its temperature [K].</param>
/// <param name="LnVapourPressure">The logarithm of its vapour pressure in Pa [1].</param>
public sealed record ClimateForecast(DateTimeOffset From, SeriesForecast Kelvins, SeriesForecast LnVapourPressure)
{
    /// <summary>How far ahead it reaches [h]: beyond it the last of its days is taken to come again and again.</summary>
    public const int Reach = 72;

    private const double SecondsPerHour = 3600;

    /// <summary>What somebody does about it from the instant on; null where nobody does anything.</summary>
    public ClimateHeld? Held { get; init; }

    /// <summary>The leads a bay keeps account of [h].</summary>
    public static ReadOnlySpan<int> Leads => [1, 2, 3, 4, 6, 8, 10, 12, 15, 18, 21, 24, 36, 48, 60, Reach];

    /// <summary>What is expected of the air.</summary>
    /// <param name="forecaster">What is known of it.</param>
    /// <param name="now">The present.</param>
    /// <param name="air">The air at present.</param>
    /// <returns>The forecast; null while no course through the day is known.</returns>
    public static ClimateForecast? Of(ClimateForecaster forecaster, DateTimeOffset now, Exposure air)
    {
        ArgumentNullException.ThrowIfNull(forecaster);
        double hour = (now.ToUnixTimeMilliseconds() / (1_000 * SecondsPerHour)) - 0.5; // the mean of an hour stands at its middle
        return forecaster.Kelvins.Course is null
            ? null
            : new ClimateForecast(
                now,
                forecaster.Kelvins.From(hour, air.AirKelvins),
                forecaster.LnVapourPressure.From(hour, Math.Log(air.VapourPressurePa)));
    }

    /// <summary>An air that stays as it is: what is reckoned with where nothing can be forecast yet.</summary>
    /// <param name="now">The present.</param>
    /// <param name="air">The air at present.</param>
    /// <returns>The forecast, without a band.</returns>
    public static ClimateForecast Staying(DateTimeOffset now, Exposure air) => new(
        now,
        new SeriesForecast(0, air.AirKelvins, 0, null, [default]),
        new SeriesForecast(0, Math.Log(air.VapourPressurePa), 0, null, [default]));

    /// <summary>The air some time ahead.</summary>
    /// <param name="hours">How far ahead [h], 0 to <see cref="Reach"/>.</param>
    /// <param name="share">The share of the half-width of the 90 % band that its bounds lie off the likely value [1].</param>
    /// <returns>The air; its vapour pressure never above saturation.</returns>
    public AirAhead At(double hours, double share)
    {
        double kelvins = Kelvins.LikelyAt(hours), ln = LnVapourPressure.LikelyAt(hours);
        double kelvinsOff = share * Kelvins.HalfWidthsAt(hours).Of90, lnOff = share * LnVapourPressure.HalfWidthsAt(hours).Of90;
        return new AirAhead(
            HeldAfter(hours, Bounded(kelvins - kelvinsOff, ln - lnOff)),
            HeldAfter(hours, Bounded(kelvins, ln)),
            HeldAfter(hours, Bounded(kelvins + kelvinsOff, ln + lnOff)));
    }

    private static (double Kelvins, double VapourPressurePa) Bounded(double kelvins, double ln) =>
        (kelvins, Math.Exp(Math.Min(ln, SaturationPressure.LnOverWater(kelvins))));

    private (double Kelvins, double VapourPressurePa) HeldAfter(double hours, (double Kelvins, double VapourPressurePa) air) =>
        Held?.Of(air, hours) ?? air;
}

/// <summary>The air some time ahead: lower bounds, likely values, upper bounds of its temperature [K] and its vapour pressure [Pa].</summary>
/// <param name="Low">The lower bound of each.</param>
/// <param name="Likely">The likely value of each.</param>
/// <param name="High">The upper bound of each.</param>
/// <remarks>The default is no air at all.</remarks>
public readonly record struct AirAhead(
    (double Kelvins, double VapourPressurePa) Low,
    (double Kelvins, double VapourPressurePa) Likely,
    (double Kelvins, double VapourPressurePa) High);
