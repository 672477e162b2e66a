using CureWatch.Curing;
using CureWatch.Forecasting;
using CureWatch.Panels;
using CureWatch.Products;
using CureWatch.Tests.Bays;
using CureWatch.TimeWindows;
using static CureWatch.Tests.TimeWindows.Coated;

namespace CureWatch.Tests.TimeWindows;

/// <summary>
/// The bounds of a time against draws of all that is not known: the sheet's three numbers from their covariance, each probe's error from
/// between its limits, one for the coat's whole life.
/// </summary>
public class CoatClockTests
{
    private const double LivedHours = 4;

    private static readonly SheetFit Sheet = SheetFit.Of(TestShop.Paint());

    /// <summary>The same sheet, its numbers beyond doubt: what is left is the probes.</summary>
    private static readonly SheetFit SureSheet = Sheet with { Stages = [.. Sheet.Stages.Select(s => s with { Covariance = default })] };

    [Theory]
    [InlineData(20, 50, null)]
    [InlineData(12, 65, null)]
    [InlineData(28, 35, null)]
    [InlineData(12, 65, 9.0)]
    [InlineData(24, 40, 27.0)]
    public void KeepDry_InAConstantClimate_HasTheBoundsOfItsDraws(double airC, double humidityPct, double? panelC) =>
        AssertConstant(Sheet, airC, humidityPct, panelC, Limits.Usual(panelC is not null), 0.025);

    [Theory]
    [InlineData(1, 0, 0, false)]
    [InlineData(0, 5, 0, false)]
    [InlineData(0, 0, 1, false)]
    [InlineData(1, 0, 0, true)]
    [InlineData(0, 5, 0, true)]
    [InlineData(0, 0, 1.5, true)]
    [InlineData(1, 5, 1.5, true)]
    public void KeepDry_OfASureSheet_HasTheBoundsOfItsProbes(double airK, double humidityPct, double panelK, bool panelIsMeasured) =>
        AssertConstant(SureSheet, 24, 45, panelIsMeasured ? 21 : null, new Limits(airK, humidityPct, panelK, panelIsMeasured), 0.007);

    // Four hours at 12 °C behind it, 25 °C from now on.
    [Fact]
    public void KeepDry_AcrossTwoClimates_HasTheBoundsOfItsDraws()
    {
        Limits limits = Limits.Usual(panelIsMeasured: false);
        (double, double) drawn = Draw.Percentiles(
            KeepDryOf(Sheet), limits, d => LivedHours + ((d.Hours - (LivedHours * d.RateIn(12, 65, null))) / d.RateIn(25, 45, null)));
        AssertNear(drawn, KeepDry(Sheet, Climate(12, 65), Climate(25, 45), limits), 0.03);
    }

    [Fact]
    public void ReferenceHours_HaveTheBoundsOfTheirDraws()
    {
        Limits limits = Limits.Usual(panelIsMeasured: false);
        Exposure lived = Climate(12, 65);
        TimedStage cure = CoatLaws.Of(Sheet).Cure;
        var stretch = new Stretch.Loose(cure.Law, ClimateSegment.Plain(At(0), At(60 * LivedHours), lived, lived));
        var clock = new CoatClock(new CureRecord(cure.Law, [stretch]), new Outlook(At(60 * LivedHours), lived, []), [limits.Doubt]);
        ReferenceHours earned = clock.EarnedSince(KeepDry(Sheet, lived, lived, limits).OpensAt, cure.Milestone);
        (double low, double high) = Draw.Percentiles(KeepDryOf(Sheet), limits, d => LivedHours * d.RateIn(12, 65, null));
        Assert.Equal(low, earned.Low, 0.02 * low);
        Assert.Equal(high, earned.High, 0.02 * high);
    }

    private static void AssertConstant(SheetFit sheet, double airC, double humidityPct, double? panelC, Limits limits, double tolerance)
    {
        Exposure climate = Climate(airC, humidityPct, panelC);
        (double, double) drawn = Draw.Percentiles(KeepDryOf(sheet), limits, d => d.Hours / d.RateIn(airC, humidityPct, panelC));
        AssertNear(drawn, KeepDry(sheet, climate, climate, limits), tolerance);
    }

    private static StageFit KeepDryOf(SheetFit sheet) => sheet.Find(Stage.KeepDry)!;

    private static Window KeepDry(SheetFit sheet, Exposure lived, Exposure expected, Limits limits) =>
        Windows(Coat(levelledMinute: 0), 60 * LivedHours, CoatLaws.Of(sheet), [], lived, expected, limits.Doubt).KeepDry!;

    private static void AssertNear((double Low, double High) drawnHours, Window found, double tolerance)
    {
        Near(drawnHours.Low, found.ClosesAt!.Earliest);
        Near(drawnHours.High, found.ClosesAt.Latest);

        void Near(double expected, DateTimeOffset? at)
        {
            double hours = (at - found.OpensAt.Likely)!.Value.TotalHours;
            Assert.True(Math.Abs(Math.Log(hours / expected)) < tolerance, $"{hours:0.###} h, drawn {expected:0.###} h");
        }
    }
}
