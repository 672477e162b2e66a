using CsCheck;
using CureWatch.Psychrometrics;
using CureWatch.Units;

namespace CureWatch.Tests.Psychrometrics;

/// <summary>What must hold for any air at all.</summary>
public class PsychrometricsProperties
{
    // Halvings and Newton's steps stop short of the last digits.
    private const double Hair = 1e-6;

    private const int Cases = 10_000;

    private static readonly Gen<double> AirC = Gen.Double[ClimateRange.ColdestC, ClimateRange.HottestAirC];
    private static readonly Gen<double> HumidityPct = Gen.Double[ClimateRange.LeastHumidityPct, 100];
    private static readonly Gen<double> PressurePa = Gen.Double[ClimateRange.LowestPressurePa, ClimateRange.HighestPressurePa];

    [Fact]
    public void DewPoint_IsNeverAboveTheAir() => Gen.Select(AirC, HumidityPct).Sample((t, rh) => DewPointC(t, rh) <= t, iter: Cases);

    [Fact]
    public void DewPoint_OfSaturatedAir_IsTheAirsTemperature() => AirC.Sample(t => DewPointC(t, 100) == t, iter: Cases);

    [Fact]
    public void DewPoint_RisesWithHumidity() => Gen.Select(AirC, HumidityPct, HumidityPct)
        .Where((_, one, other) => Math.Abs(one - other) > 0.001)
        .Sample((t, one, other) => DewPointC(t, Math.Min(one, other)) < DewPointC(t, Math.Max(one, other)), iter: Cases);

    [Fact]
    public void DewPoint_RisesWithTemperature() => Gen.Select(AirC, AirC, HumidityPct)
        .Where((one, other, _) => Math.Abs(one - other) > 0.001)
        .Sample((one, other, rh) => DewPointC(Math.Min(one, other), rh) < DewPointC(Math.Max(one, other), rh), iter: Cases);

    [Fact]
    public void DewPoint_OfTheVapourPressure_IsThatOfTheAir() => Gen.Select(AirC, HumidityPct).Sample(
        (t, rh) =>
        {
            double pascals = Vapour.PressurePa(new Celsius(t), new RelativeHumidity(rh));
            return Math.Abs(DewPoint.OfPressure(pascals).Degrees - DewPointC(t, rh)) < Hair;
        },
        iter: Cases);

    [Fact]
    public void CondensationTemperature_IsNeverBelowTheDewPoint_AndAboveItOnlyInFrost() => Gen.Select(AirC, HumidityPct).Sample(
        (t, rh) =>
        {
            double condensationC = CondensationTemperature.Of(new Celsius(t), new RelativeHumidity(rh)).Degrees;
            double dewPointC = DewPointC(t, rh);
            return dewPointC >= 0 ? condensationC == dewPointC : condensationC >= dewPointC && condensationC <= 0;
        },
        iter: Cases);

    [Fact]
    public void CondensationTemperature_RisesWithPressure() => Gen.Double[1, 2000].Sample(
        pascals => CondensationTemperature.OfPressure(pascals).Degrees
            <= CondensationTemperature.OfPressure(pascals * 1.000001).Degrees + Hair,
        iter: Cases);

    [Fact]
    public void WetBulb_LiesBetweenTheDewPointAndTheAir() => Gen.Select(AirC, HumidityPct, PressurePa)
        .Sample((t, rh, p) => WetBulbC(t, rh, p) >= DewPointC(t, rh) && WetBulbC(t, rh, p) <= t, iter: Cases);

    [Fact]
    public void WetBulb_RisesWithHumidity() => Gen.Select(AirC, HumidityPct, HumidityPct, PressurePa)
        .Sample(
            (t, one, other, p) => WetBulbC(t, Math.Min(one, other), p) <= WetBulbC(t, Math.Max(one, other), p) + Hair, iter: Cases);

    private static double DewPointC(double airC, double humidityPct) =>
        DewPoint.Of(new Celsius(airC), new RelativeHumidity(humidityPct)).Degrees;

    private static double WetBulbC(double airC, double humidityPct, double pressurePa) =>
        WetBulb.Of(new Celsius(airC), new RelativeHumidity(humidityPct), pressurePa).Degrees;
}
