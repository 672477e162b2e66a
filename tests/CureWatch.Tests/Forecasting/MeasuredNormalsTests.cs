using System.Globalization;
using CureWatch.Forecasting;

namespace CureWatch.Tests.Forecasting;

/// <summary>
/// A year's hourly temperature normals of a weather station, days that grow and shrink with the seasons: npm's vega-datasets 3.2.1 (see Measured/SOURCES.md).
/// They hold no humidity.
/// </summary>
public class MeasuredNormalsTests
{
    private const double Noise = 0.5;

    private static readonly double[] Normals =
    [
        .. from line in File.ReadLines(Path.Combine(AppContext.BaseDirectory, "Forecasting", "Measured", "hourly-normals.csv")).Skip(1)
           select double.Parse(line.Split(',')[1], CultureInfo.InvariantCulture),
    ];

    // A day of normals is the day before, but for the season: of persistence's error half a kelvin is left at most.
    [Fact]
    public void AYearOfNormals_IsForeseenAtEveryLead()
    {
        Backtest run = Backtest.Over(Hours(Normals), 24);

        Assert.All(run.Leads, l => Assert.InRange(l.Temperature!.Coverage80, 0.77, 0.83));
        Assert.All(run.Leads, l => Assert.InRange(l.Temperature!.RmseK, 0, 0.5));
        Assert.All(run.Leads.Where(l => l.Hours is >= 2 and <= 20), l => Assert.True(l.Temperature!.RmseK < l.Temperature.PersistenceRmseK / 4, $"{l}"));
    }

    // With noise that fades by a known share an hour, no forecast can do better than its variance: Box, Jenkins, Time Series Analysis, ch. 5 (from memory).
    // The seasons, and what of a day is sharper than twelve hours, cost up to a fifth.
    [Fact]
    public void Normals_UnderFadingNoise_AreForeseenNextToTheBestThereIs()
    {
        const double Persistence = 0.9;
        Backtest run = Backtest.Over(Hours(UnderNoise(Persistence, seed: 31)), 24);

        Assert.All(run.Leads, l => Assert.InRange(l.Temperature!.Coverage80, 0.77, 0.83));
        Assert.All(run.Leads, l => Assert.InRange(
            l.Temperature!.RmseK / (Noise * Math.Sqrt((1 - Math.Pow(Persistence, 2 * l.Hours)) / (1 - (Persistence * Persistence)))), 0.9, 1.2));
    }

    private static IEnumerable<HourMean> Hours(IEnumerable<double> temperatures) =>
        temperatures.Select((c, hour) => new HourMean(350_000 + hour, 273.15 + c, Math.Log(900)));

    private static IEnumerable<double> UnderNoise(double persistence, int seed)
    {
        var normal = new MathNet.Numerics.Distributions.Normal(0, Noise, new Random(seed));
        double departure = 0;
        foreach (double c in Normals)
        {
            departure = (persistence * departure) + normal.Sample();
            yield return c + departure;
        }
    }
}
