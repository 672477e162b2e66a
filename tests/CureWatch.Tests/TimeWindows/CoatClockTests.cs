using CureWatch.Curing;
using CureWatch.Panels;
using CureWatch.Products;
using CureWatch.Psychrometrics;
using CureWatch.Tests.Bays;
using CureWatch.TimeWindows;
using static CureWatch.Tests.TimeWindows.Coated;

namespace CureWatch.Tests.TimeWindows;

/// <summary>
/// The bounds of a time against draws of all that is not known: the sheet's three numbers from their covariance, each probe's error from
/// between its limits, one for the coat's whole life (GUM supplement 1). The draws compute every rate anew.
/// </summary>
public class CoatClockTests
{
    private const int Draws = 20_000;
    private const double AirLimitK = 0.3, HumidityLimitPct = 2, PanelLimitK = 0.5;

    [Theory]
    [InlineData(20, 50, null)]
    [InlineData(12, 65, null)]
    [InlineData(28, 35, null)]
    [InlineData(12, 65, 9.0)]
    [InlineData(24, 40, 27.0)]
    public void KeepDry_InAConstantClimate_HasTheBoundsOfItsDraws(double airC, double humidityPct, double? panelC)
    {
        Window window = KeepDry(airC, humidityPct, panelC, airC, humidityPct, panelC);
        (double low, double high) = Drawn(d => d.Hours / d.RateIn(airC, humidityPct, panelC), hasPanel: panelC is not null);
        AssertNear(low, window.OpensAt.Likely, window.ClosesAt!.Earliest);
        AssertNear(high, window.OpensAt.Likely, window.ClosesAt.Latest);
    }

    // Four hours at 12 °C behind it, 25 °C from now on.
    [Fact]
    public void KeepDry_AcrossTwoClimates_HasTheBoundsOfItsDraws()
    {
        Window window = KeepDry(12, 65, null, 25, 45, null);
        (double low, double high) = Drawn(d => 4 + ((d.Hours - (4 * d.RateIn(12, 65, null))) / d.RateIn(25, 45, null)), hasPanel: false);
        AssertNear(low, window.OpensAt.Likely, window.ClosesAt!.Earliest);
        AssertNear(high, window.OpensAt.Likely, window.ClosesAt.Latest);
    }

    [Fact]
    public void ReferenceHours_HaveTheBoundsOfTheirDraws()
    {
        CoatWindows windows = Windows(12, 65, null, 12, 65, null);
        TimedStage cure = CoatLaws.Of(SheetFit.Of(TestShop.Paint())).Cure;
        ReferenceHours earned = Clock(cure.Law, 12, 65).EarnedSince(windows.CureStart, cure.Milestone);
        (double low, double high) = Drawn(d => 4 * d.RateIn(12, 65, null), hasPanel: false);
        Assert.Equal(low, earned.Low, 0.02 * low);
        Assert.Equal(high, earned.High, 0.02 * high);
    }

    private static Window KeepDry(double livedC, double livedPct, double? livedPanelC, double nextC, double nextPct, double? nextPanelC) =>
        Windows(livedC, livedPct, livedPanelC, nextC, nextPct, nextPanelC).KeepDry!;

    private static CoatWindows Windows(double livedC, double livedPct, double? livedPanelC, double nextC, double nextPct, double? nextPanelC) => Coated.Windows(
        Coat(levelledMinute: 0),
        4 * 60,
        TestShop.Paint(),
        [],
        Climate(livedC, livedPct, livedPanelC),
        Climate(nextC, nextPct, nextPanelC),
        Doubt(livedPanelC is not null));

    private static CoatClock Clock(RateLaw law, double airC, double humidityPct)
    {
        Exposure held = Climate(airC, humidityPct);
        var lived = new Stretch.Loose(law, new ClimateSegment(At(0), At(240), held, held, null));
        return new CoatClock(new CureRecord(law, [lived]), new Forecasting.Outlook(At(240), held), Doubt(hasPanel: false));
    }

    private static ClimateDoubt Doubt(bool hasPanel) => new(
        ClimateDoubt.VarianceOfLimit(AirLimitK),
        ClimateDoubt.VarianceOfLimit(HumidityLimitPct),
        hasPanel ? ClimateDoubt.VarianceOfLimit(PanelLimitK) : ClimateDoubt.LagK * ClimateDoubt.LagK,
        hasPanel);

    private static void AssertNear(double expectedHours, DateTimeOffset? start, DateTimeOffset? found)
    {
        double hours = (found - start)!.Value.TotalHours;
        Assert.True(Math.Abs(Math.Log(hours / expectedHours)) < 0.025, $"{hours:0.###} h, drawn {expectedHours:0.###} h");
    }

    private static (double Low, double High) Drawn(Func<Draw, double> ofDraw, bool hasPanel)
    {
        StageFit fit = SheetFit.Of(TestShop.Paint()).Find(Stage.KeepDry)!;
        var random = new Random(20260504);
        double[] drawn = [.. Enumerable.Range(0, Draws).Select(_ => ofDraw(Draw.From(fit, random, hasPanel))).Order()];
        return (drawn[Draws / 20], drawn[Draws - (Draws / 20)]);
    }

    /// <summary>One state of the world: what the sheet's numbers and the probes' errors may really be.</summary>
    private sealed record Draw(double Hours, double EnergyJmol, double Exponent, double AirErrorK, double HumidityErrorPct, double PanelErrorK, bool HasPanel)
    {
        public static Draw From(StageFit fit, Random random, bool hasPanel)
        {
            // One row in the sheet's own climate: its three numbers do not hang together.
            Assert.Equal(0, fit.Covariance.LnHoursEnergy + fit.Covariance.LnHoursExponent + fit.Covariance.EnergyExponent, 1e-9);
            return new Draw(
                Math.Exp(Math.Log(fit.ReferenceHours) + (Normal(random) * Math.Sqrt(fit.Covariance.LnHours))),
                fit.Law.ActivationEnergyJmol + (Normal(random) * Math.Sqrt(fit.Covariance.Energy)),
                fit.Law.HumidityExponent + (Normal(random) * Math.Sqrt(fit.Covariance.Exponent)),
                Within(random, AirLimitK),
                Within(random, HumidityLimitPct),
                hasPanel ? Within(random, PanelLimitK) : Normal(random) * ClimateDoubt.LagK,
                hasPanel);
        }

        public double RateIn(double airC, double humidityPct, double? panelC)
        {
            double air = airC + AirErrorK, panel = (HasPanel ? panelC!.Value : air) + PanelErrorK;
            double activity = (humidityPct + HumidityErrorPct) / 100 * SaturationPa(air) / SaturationPa(panel);
            return Math.Exp(EnergyJmol / 8.314462618 * ((1 / 293.15) - (1 / (panel + 273.15)))) * Math.Pow(Math.Clamp(activity, 0.05, 0.85) / 0.5, Exponent);
        }

        private static double SaturationPa(double c) => SaturationPressure.OverWaterPa(c + 273.15);

        private static double Within(Random random, double limit) => limit * ((2 * random.NextDouble()) - 1);

        private static double Normal(Random random) =>
            Math.Sqrt(-2 * Math.Log(1 - random.NextDouble())) * Math.Cos(2 * Math.PI * random.NextDouble());
    }
}
