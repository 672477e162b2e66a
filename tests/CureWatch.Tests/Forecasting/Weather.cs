using CureWatch.Forecasting;

namespace CureWatch.Tests.Forecasting;

/// <summary>A daily course with noise that fades by a share an hour, whose best forecast is known exactly.</summary>
internal sealed class Weather(int seed, double persistence)
{
    public const double Noise = 0.5;

    private readonly Random _random = new(seed);

    public IEnumerable<HourMean> Hours(int days)
    {
        double departure = Normal() * Noise / Math.Sqrt(1 - (persistence * persistence));
        for (int hour = 0; hour < 24 * days; hour++)
        {
            double usual = 291 + (3 * Math.Cos(2 * Math.PI * (hour - 15) / 24.0)) + (0.8 * Math.Cos(4 * Math.PI * (hour - 3) / 24.0));
            yield return new HourMean(480_000 + hour, usual + departure, Math.Log(1_100) + (0.02 * departure));
            departure = (persistence * departure) + (Noise * Normal());
        }
    }

    /// <summary>The error no forecast can do without. Source (law): the variance of a first-order autoregression some steps ahead.</summary>
    public static double LeastRmse(double persistence, int lead) =>
        Noise * Math.Sqrt((1 - Math.Pow(persistence, 2 * lead)) / (1 - (persistence * persistence)));

#pragma warning disable CA5394 // weather, no secrets
    private double Normal() => Math.Sqrt(-2 * Math.Log(1 - _random.NextDouble())) * Math.Cos(2 * Math.PI * _random.NextDouble());
#pragma warning restore CA5394
}
