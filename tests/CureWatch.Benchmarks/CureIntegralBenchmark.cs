using BenchmarkDotNet.Attributes;
using CureWatch.Curing;
using CureWatch.Panels;
using CureWatch.Products;
using CureWatch.Psychrometrics;
using CureWatch.Units;

namespace CureWatch.Benchmarks;

/// <summary>A minute between two readings under every law in use in a bay: one law, those of one product, those of forty coats.</summary>
/// <remarks>The trapezoid gives one pace out of two rates; the integral gives three paces and the mean climate.</remarks>
[MemoryDiagnoser]
public class CureIntegralBenchmark
{
    private static readonly DateTimeOffset Start = new(2026, 5, 4, 8, 0, 0, TimeSpan.Zero);

    private readonly ClimateSegment _usual = Minute(At(20, 50), At(20.1, 50.4));
    private readonly ClimateSegment _acrossAClamp = Minute(At(20, 84.8), At(20, 85.2));
    private RateLaw[] _laws = [];

    [Params(1, 6, 40)]
    public int Laws { get; set; }

    [GlobalSetup]
    public void Fit() => _laws =
    [
        .. Enumerable.Range(0, Laws).Select(
            i => new RateLaw(Mechanism.Cure, byDeficit: false, 40e3 + (500 * i), 0.4 + (0.01 * i), ReferenceClimate.Usual)),
    ];

    [Benchmark(Baseline = true)]
    public double Trapezoid()
    {
        double sum = 0;
        foreach (RateLaw law in _laws)
        {
            sum += _usual.Hours * (Rate(law, _usual.AtStart) + Rate(law, _usual.AtEnd)) / 2;
        }

        return sum;
    }

    [Benchmark]
    public double Integral() => Sum(_usual);

    [Benchmark]
    public double IntegralAcrossAClamp() => Sum(_acrossAClamp);

    private double Sum(in ClimateSegment segment)
    {
        double sum = 0;
        foreach (RateLaw law in _laws)
        {
            sum += CureIntegral.Over(law, segment).Likely;
        }

        return sum;
    }

    private static double Rate(RateLaw law, Exposure exposure) => law.Likely(law.Terms(exposure.PanelKelvins, exposure.VapourPressurePa));

    private static ClimateSegment Minute(Exposure start, Exposure end) =>
        ClimateSegment.Plain(Start, Start + TimeSpan.FromMinutes(1), start, end);

    private static Exposure At(double degreesC, double humidityPct)
    {
        double kelvins = new Celsius(degreesC).Kelvins;
        return new Exposure(kelvins, SaturationPressure.OverWaterPa(kelvins) * humidityPct / 100, kelvins);
    }
}
