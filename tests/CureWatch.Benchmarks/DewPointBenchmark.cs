using BenchmarkDotNet.Attributes;
using CureWatch.Psychrometrics;
using CureWatch.Units;

namespace CureWatch.Benchmarks;

/// <summary>What the two Newton steps cost over the closed form they start from, which errs by up to 0.1 K.</summary>
[MemoryDiagnoser]
public class DewPointBenchmark
{
    private const int Climates = 64;

    // Source (law): WMO-No. 8, annex on formulae for humidity.
    private const double MagnusA = 17.62, MagnusB = 243.12;

    private readonly (Celsius Air, RelativeHumidity Humidity)[] _climates =
        [.. Enumerable.Range(0, Climates).Select(i => (new Celsius(5 + (0.5 * i)), new RelativeHumidity(20 + (i * 29 % 75))))];

    [Benchmark(Baseline = true, OperationsPerInvoke = Climates)]
    public double MagnusInverted()
    {
        double sum = 0;
        foreach ((Celsius air, RelativeHumidity humidity) in _climates)
        {
            double g = Math.Log(humidity.Fraction) + (MagnusA * air.Degrees / (MagnusB + air.Degrees));
            sum += new Celsius(MagnusB * g / (MagnusA - g)).Degrees;
        }

        return sum;
    }

    [Benchmark(OperationsPerInvoke = Climates)]
    public double Sonntag()
    {
        double sum = 0;
        foreach ((Celsius air, RelativeHumidity humidity) in _climates)
        {
            sum += DewPoint.Of(air, humidity).Degrees;
        }

        return sum;
    }
}
