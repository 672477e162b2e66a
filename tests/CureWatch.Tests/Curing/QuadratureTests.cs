using CureWatch.Curing;
using CureWatch.Panels;
using CureWatch.Products;
using CureWatch.Psychrometrics;
using MathNet.Numerics.Integration;
using static CureWatch.Tests.Curing.Segments;

namespace CureWatch.Tests.Curing;

/// <summary>
/// Reference hours against the Gauss–Legendre quadrature of an open numerics library (MathNet.Numerics), over random climates: steep ramps,
/// clamps crossed, drying by deficit. The rate under the integral and the straight line between two readings are written here anew from the law's
/// equation: by the program's own line, one that took relative humidity for straight would agree with itself.
/// </summary>
public class QuadratureTests
{
    private const int Climates = 1000;
    private const double Tolerance = 1e-5;

    [Fact]
    public void Progress_OverRandomClimates_IsTheQuadratures()
    {
        double worst = 0;
        for (int seed = 0; seed < Climates; seed++)
        {
            RandomClimate climate = new(seed);
            Credit sum = default;
            foreach (ClimateSegment segment in climate.Segments)
            {
                sum += CureIntegral.Over(climate.Law, segment);
            }

            worst = Math.Max(worst, Math.Abs((sum.Likely / climate.ByQuadrature()) - 1));
        }

        Assert.True(worst < Tolerance, $"off by {worst:0.0e0}");
    }

    // The same with integrators that do not do: they show that the climates above tell good from bad.
    [Theory]
    [InlineData(false)]
    [InlineData(true)]
    public void Progress_ByATrapezoid_OrWithHumidityLinear_IsNotTheQuadratures(bool byTrapezoid)
    {
        int off = 0;
        for (int seed = 0; seed < Climates; seed++)
        {
            RandomClimate climate = new(seed);
            double sum = climate.Segments.Sum(s => byTrapezoid ? Trapezoid(climate, s) : HumidityLinear(climate, s));
            off += Math.Abs((sum / climate.ByQuadrature()) - 1) > Tolerance ? 1 : 0;
        }

        Assert.True(off > 0.9 * Climates, $"only {off} of {Climates} are off");
    }

    // A straight line told by more readings, or by fewer, is the same line.
    [Fact]
    public void Progress_SplitAtAnyInstants_IsTheSame()
    {
        double worst = 0;
        for (int seed = 0; seed < Climates; seed++)
        {
            RandomClimate climate = new(seed);
            var random = new Random(seed + Climates);
            foreach (ClimateSegment segment in climate.Segments)
            {
                Credit whole = CureIntegral.Over(climate.Law, segment), split = default;
                DateTimeOffset from = segment.Start;
                foreach (double share in Enumerable.Range(0, random.Next(1, 20)).Select(_ => random.NextDouble()).Order().Append(1))
                {
                    DateTimeOffset to = segment.Start + ((segment.End - segment.Start) * share);
                    split += to > from ? CureIntegral.Over(climate.Law, segment.Between(from, to)) : default;
                    from = to;
                }

                worst = Math.Max(worst, Math.Abs((split.Likely / whole.Likely) - 1));
            }
        }

        Assert.True(worst < 1e-9, $"off by {worst:0.0e0}");
    }

    private static double Trapezoid(RandomClimate climate, ClimateSegment segment) =>
        segment.Hours * (climate.Rate(segment.AtStart) + climate.Rate(segment.AtEnd)) / 2;

    private static double HumidityLinear(RandomClimate climate, ClimateSegment segment)
    {
        double Humidity(Exposure e) => e.VapourPressurePa / SaturationPressure.OverWaterPa(e.AirKelvins);
        return segment.Hours * GaussLegendreRule.Integrate(
            share =>
            {
                Exposure at = RandomClimate.On(segment, share);
                double humidity = Humidity(segment.AtStart) + ((Humidity(segment.AtEnd) - Humidity(segment.AtStart)) * share);
                return climate.Rate(at with { VapourPressurePa = humidity * SaturationPressure.OverWaterPa(at.AirKelvins) });
            },
            0,
            1,
            64);
    }

    /// <summary>A day or so of straight stretches between random readings, and a law.</summary>
    private sealed class RandomClimate
    {
        private readonly double _energy, _exponent;
        private readonly bool _byDeficit;

        public RandomClimate(int seed)
        {
            var random = new Random(seed);
            _byDeficit = seed % 4 == 0;
            _energy = 20e3 + (90e3 * random.NextDouble());
            _exponent = _byDeficit ? 1 : 1.5 * random.NextDouble();
            Law = new RateLaw(_byDeficit ? Mechanism.Evaporation : Mechanism.Cure, _byDeficit, _energy, _exponent, ReferenceClimate.Usual);
            var segments = new List<ClimateSegment>();
            Exposure before = Any(random);
            double hour = 0;
            for (int i = random.Next(2, 12); i > 0; i--)
            {
                Exposure next = Any(random);
                double hours = Math.Pow(10, (2 * random.NextDouble()) - 1.3);
                segments.Add(Over(hours, before, next, hour));
                (before, hour) = (next, hour + hours);
            }

            Segments = segments;
        }

        public RateLaw Law { get; }

        public IReadOnlyList<ClimateSegment> Segments { get; }

        public double Rate(Exposure at)
        {
            double energy = Math.Exp(_energy / 8.314462618 * ((1 / 293.15) - (1 / at.PanelKelvins)));
            double saturated = SaturationPressure.OverWaterPa(at.PanelKelvins);
            return energy * (_byDeficit
                ? Math.Max(0.05, (saturated - at.VapourPressurePa) / (0.5 * SaturationPressure.OverWaterPa(293.15)))
                : Math.Pow(Math.Clamp(at.VapourPressurePa / saturated, 0.05, 0.85) / 0.5, _exponent));
        }

        /// <summary>Temperatures and vapour pressure straight in time.</summary>
        public static Exposure On(ClimateSegment segment, double share)
        {
            (Exposure start, Exposure end) = (segment.AtStart, segment.AtEnd);
            double Between(double first, double last) => ((1 - share) * first) + (share * last);
            return new(
                Between(start.AirKelvins, end.AirKelvins),
                Between(start.VapourPressurePa, end.VapourPressurePa),
                Between(start.PanelKelvins, end.PanelKelvins));
        }

        public double ByQuadrature() => Segments.Sum(Quadrature);

        /// <summary>Pieces short enough that a kink inside one of them is worth less than a millionth.</summary>
        private double Quadrature(ClimateSegment segment)
        {
            const int Pieces = 400;
            double sum = 0;
            for (int i = 0; i < Pieces; i++)
            {
                sum += GaussLegendreRule.Integrate(
                    share => Rate(On(segment, share)), i / (double)Pieces, (i + 1) / (double)Pieces, 6);
            }

            return segment.Hours * sum;
        }

        private static Exposure Any(Random random)
        {
            double airC = -5 + (45 * random.NextDouble());
            return At(airC, 3 + (96 * random.NextDouble()), airC + (16 * (random.NextDouble() - 0.5)));
        }
    }
}
