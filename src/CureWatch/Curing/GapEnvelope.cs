using CureWatch.Panels;
using CureWatch.Products;
using CureWatch.Psychrometrics;
using CureWatch.Units;

namespace CureWatch.Curing;

/// <summary>The most a coat may have cured where nobody measured.</summary>
/// <remarks>
/// Equation: between readings (t0, v0) and (t1, v1), value ≤ min(v0 + r(t − t0), v1 + r(t1 − t)) and likewise from below; with no second
/// reading, v0 ± r(t − t0). The fast rate is the higher one of the warmest and the coldest panel, in the moistest air (in the driest,
/// where drying is by deficit), integrated by Simpson's rule. Source (choice): r = 4 K/h for temperature and 3 K/h for the dew point, a
/// bay with its doors shut; −20 and 40 °C stop the envelope unless a reading lies beyond; eight pieces an hour, 4 to 64.
/// Edges: the slow bound needs no envelope, since a
/// gap earns it nothing.
/// </remarks>
public static class GapEnvelope
{
    private const double TemperatureRateKPerHour = 4;
    private const double DewPointRateKPerHour = 3;
    private const double FloorKelvins = Celsius.KelvinsAtZero - 20;
    private const double CeilingKelvins = Celsius.KelvinsAtZero + 40;
    private const double PiecesPerHour = 8;
    private const double FewestPieces = 4, MostPieces = 64;

    /// <summary>The fast bound's progress over a segment nobody measured.</summary>
    /// <param name="law">The rate law.</param>
    /// <param name="segment">The segment.</param>
    /// <param name="unseen">The readings around it.</param>
    /// <returns>Reference hours [h]; not below the likely progress but for rounding.</returns>
    public static double Fast(RateLaw law, in ClimateSegment segment, Unseen unseen)
    {
        var air = new Envelope(unseen.Air, b => b.FromKelvins, b => b.ToKelvins, TemperatureRateKPerHour);
        var dew = new Envelope(
            unseen.Air, b => DewKelvins(b.FromVapourPressurePa), b => DewKelvins(b.ToVapourPressurePa), DewPointRateKPerHour);
        Envelope panel = unseen.Panel is { } measured
            ? new Envelope(measured, b => b.FromKelvins, b => b.ToKelvins, TemperatureRateKPerHour)
            : air;
        int pieces = (int)Math.Clamp(Math.Ceiling(PiecesPerHour * segment.Hours), FewestPieces, MostPieces);
        double sum = 0;
        for (int i = 0; i <= 2 * pieces; i++)
        {
            DateTimeOffset at = segment.Start + ((segment.End - segment.Start) * i / (2 * pieces));
            double weight = i == 0 || i == 2 * pieces ? 1 : i % 2 == 1 ? 4 : 2;
            sum += weight * FastRate(law, panel.At(at), dew.At(at), air.At(at).High);
        }

        return sum * segment.Hours / (6 * pieces);
    }

    private static double FastRate(RateLaw law, (double Low, double High) panel, (double Low, double High) dew, double airHigh)
    {
        double dewHigh = Math.Min(dew.High, airHigh);
        double pa = SaturationPressure.OverWaterPa(law.ByDeficit ? Math.Min(dew.Low, dewHigh) : dewHigh);
        return Math.Max(law.Fast(law.Terms(panel.High, pa)), law.Fast(law.Terms(panel.Low, pa)));
    }

    private static double DewKelvins(double vapourPressurePa) => DewPoint.OfPressure(vapourPressurePa).Kelvins;

    private readonly struct Envelope(
        Bracket bracket, Func<Bracket, double> from, Func<Bracket, double> to, double ratePerHour)
    {
        private readonly double _from = from(bracket);
        private readonly double _to = to(bracket);

        public (double Low, double High) At(DateTimeOffset at)
        {
            double sinceFirst = ratePerHour * Math.Abs((at - bracket.From).TotalHours);
            double untilSecond = bracket.To is { } second ? ratePerHour * Math.Abs((second - at).TotalHours) : double.PositiveInfinity;
            double high = Math.Min(Math.Min(_from + sinceFirst, _to + untilSecond), Math.Max(CeilingKelvins, Math.Max(_from, _to)));
            double low = Math.Max(Math.Max(_from - sinceFirst, _to - untilSecond), Math.Min(FloorKelvins, Math.Min(_from, _to)));
            return (low, high);
        }
    }
}
