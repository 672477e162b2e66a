using CureWatch.Products;
using static CureWatch.Tests.Products.Sheets;

namespace CureWatch.Tests.Products;

public class SheetFitTests
{
    private static readonly SheetRow[] Worked =
    [
        Row(10, 50, 49.5), Row(15, 50, 34.5), Row(20, 50, 24), Row(25, 50, 17),
        Row(30, 50, 12), Row(20, 30, 34.5), Row(20, 70, 19), Row(30, 70, 9.5),
    ];

    /// <summary>
    /// Rows made from E 50 kJ/mol, m 0.7 and 24 h, rounded to half hours. Source of the figures: least squares by a separate program in
    /// Python, to the digits given.
    /// </summary>
    [Fact]
    public void Fit_OfTheWorkedTable_IsTheSeparateProgramsFit()
    {
        StageFit fit = SheetFit.Of(Of(KeepDry(Worked))).Stages.Single();

        Assert.Equal(23.97, fit.ReferenceHours, 0.005);
        Assert.Equal(50.70, fit.Law.ActivationEnergyJmol / 1000, 0.005);
        Assert.Equal(0.687, fit.Law.HumidityExponent, 0.0005);
        Assert.Equal(0.036, fit.Covariance.StdErrorLnReferenceHours, 0.0005);
        Assert.Equal(3.87, fit.Covariance.StdErrorActivationEnergyKJmol, 0.005);
        Assert.Equal(0.133, fit.Covariance.StdErrorHumidityExponent, 0.0005);
        Assert.True(fit.LearnsActivationEnergy && fit.LearnsHumidityExponent);
    }

    /// <summary>The same rows and program, nothing known beforehand.</summary>
    [Fact]
    public void Fit_OfTheWorkedTableWithoutPriors_IsTheSeparateProgramsFit()
    {
        var ignorant = new Priors(0, double.PositiveInfinity, 0, double.PositiveInfinity);
        StageFit fit = StageFitting.Of(KeepDry(Worked), ReferenceClimate.Usual, ignorant);

        Assert.Equal(23.97, fit.ReferenceHours, 0.005);
        Assert.Equal(50.62, fit.Law.ActivationEnergyJmol / 1000, 0.005);
        Assert.Equal(0.708, fit.Law.HumidityExponent, 0.0005);
    }

    [Fact]
    public void Fit_OfRowsTooSteepToBelieve_StaysAtTheUpperBound()
    {
        StageFit fit = SheetFit.Of(Of(KeepDry(Row(10, 50, 100), Row(20, 50, 10), Row(30, 50, 1)))).Stages.Single();

        Assert.Equal(110e3, fit.Law.ActivationEnergyJmol);
        Assert.Equal(0.6, fit.Law.HumidityExponent, 9);
        Assert.True(fit.Rows[0].ResidualPct < -10, "The residuals must tell that the rows follow no such law.");
    }

    [Fact]
    public void Fit_OfOneRow_MeetsItAndKeepsThePriors()
    {
        StageFit fit = SheetFit.Of(Of(KeepDry(Row(15, 40, 30)))).Stages.Single();

        Assert.Equal(50e3, fit.Law.ActivationEnergyJmol, 6);
        Assert.Equal(0.6, fit.Law.HumidityExponent, 9);
        Assert.Equal(15, fit.Covariance.StdErrorActivationEnergyKJmol, 9);
        Assert.Equal(0.3, fit.Covariance.StdErrorHumidityExponent, 9);
        Assert.Equal(30, fit.Rows[0].FittedHours, 9);
        Assert.Equal(0.1, Math.Sqrt(fit.VarianceOfLnHours(fit.Rows[0].Terms.X, fit.Rows[0].Terms.Y)), 9);
        Assert.False(fit.LearnsActivationEnergy || fit.LearnsHumidityExponent);
    }

    [Fact]
    public void Fit_OfTwoTemperatures_LearnsTheEnergyAndKeepsTheExponent()
    {
        StageFit fit = SheetFit.Of(Of(KeepDry(Row(10, 50, 48), Row(30, 50, 12)))).Stages.Single();

        Assert.True(fit.LearnsActivationEnergy);
        Assert.False(fit.LearnsHumidityExponent);
        Assert.Equal(0.6, fit.Law.HumidityExponent, 9);
        Assert.InRange(fit.Covariance.StdErrorActivationEnergyKJmol, 3, 6);
    }

    [Fact]
    public void Fit_OfARange_TakesItsGeometricMeanAndScatter()
    {
        StageFit fit = SheetFit.Of(Of(KeepDry(Row(20, 50, 12, 24)))).Stages.Single();

        Assert.Equal(Math.Sqrt(12 * 24), fit.ReferenceHours, 9);
        Assert.Equal(Math.Log(2) / 3.29, fit.Covariance.StdErrorLnReferenceHours, 9);
    }

    [Fact]
    public void Fit_InAnotherReferenceClimate_GivesTheSameTimes()
    {
        StageFit usual = SheetFit.Of(Of(KeepDry(Worked))).Stages.Single();
        StageFit other = SheetFit.Of(Of(Carrier.Solvent, Climate(23, 60), KeepDry(Worked))).Stages.Single();

        Assert.Equal(usual.Rows.Select(r => r.FittedHours), other.Rows.Select(r => r.FittedHours), (a, b) => Math.Abs(a - b) < 1e-9);
        FitTerms at = FitTerms.Of(other.Law.Reference.Temperature, other.Law.Reference.Humidity, ReferenceClimate.Usual, byDeficit: false);
        Assert.Equal(usual.VarianceOfLnHours(at.X, at.Y), other.Covariance.LnHours, 12);
    }

    [Fact]
    public void Fit_OfFlash_HasTwoMilestonesOnOneLaw()
    {
        StageFit fit = SheetFit.Of(Of(Flash(Row(20, 50, 0.02, 0.05), Row(30, 50, 0.01, 0.03)))).Stages.Single();

        Assert.NotNull(fit.To);
        Assert.Same(fit.Law, fit.To.Law);
        Assert.Equal(fit.ToReferenceHours, fit.To.ReferenceHours);
        Assert.Equal(0.02, fit.Rows[0].SheetHours, 9);
        Assert.Equal(0.05, fit.To.Rows[0].SheetHours, 9);
        Assert.True(fit.ReferenceHours < fit.ToReferenceHours);
    }

    [Fact]
    public void Fit_OfAStageWithOneTime_HasNoSecondMilestone() =>
        Assert.Null(SheetFit.Of(Of(KeepDry(Row(20, 50, 12, 24)))).Stages.Single().ToReferenceHours);

    [Fact]
    public void LevelBy_WhereTheSheetIsSilent_IsTheEndOfFlashAndAHold()
    {
        SheetFit fit = SheetFit.Of(Of(Flash(Row(20, 50, 0.02, 0.05)) with { IfMissed = IfMissed.Note }));

        Assert.Equal(Stage.LevelBy, fit.LevelBy!.Stage);
        Assert.Equal(IfMissed.Hold, fit.LevelBy.IfMissed);
        Assert.Equal(0.05, fit.LevelBy.ReferenceHours, 9);
        Assert.Single(fit.Stages);
    }

    [Fact]
    public void LevelBy_OfTheSheetItself_Wins()
    {
        var own = new SheetStage(Stage.LevelBy, Mechanism.Evaporation, [Row(20, 50, 0.3)], IfMissed.Note);
        SheetFit fit = SheetFit.Of(Of(Flash(Row(20, 50, 0.02, 0.05)), own));

        Assert.Equal(0.3, fit.LevelBy!.ReferenceHours, 9);
        Assert.Equal(IfMissed.Note, fit.LevelBy.IfMissed);
    }

    [Fact]
    public void LevelBy_WithNeitherRowNorFlash_IsNoWindow() => Assert.Null(SheetFit.Of(Of(KeepDry(Row(20, 50, 12)))).LevelBy);

    [Fact]
    public void WaterborneFlash_InMoisterAir_IsSlower()
    {
        SheetFit fit = SheetFit.Of(Of(Carrier.Water, ReferenceClimate.Usual, Flash(Row(20, 50, 0.1, 0.2)), KeepDry(Row(20, 50, 12))));
        RateLaw flash = fit.Stages[0].Law;
        FitTerms moist = FitTerms.Of(flash.Reference.Temperature, new(75), flash.Reference, flash.ByDeficit);

        Assert.True(flash.ByDeficit);
        Assert.Equal(1, flash.HumidityExponent);
        Assert.Equal(0, fit.Stages[0].Covariance.StdErrorHumidityExponent);
        Assert.Equal(Math.Log(0.5), moist.Y, 9);
        Assert.False(fit.Stages[0].LearnsHumidityExponent);
        Assert.False(fit.Stages[1].Law.ByDeficit);
    }

    [Theory]
    [InlineData(0, 1)]
    [InlineData(2, 1)]
    public void Times_OutOfOrder_AreRefused(double fromHours, double toHours) =>
        Assert.Throws<ArgumentException>(() => SheetFit.Of(Of(KeepDry(Row(20, 50, fromHours, toHours)))));

    [Fact]
    public void Stage_WithoutRows_IsRefused() => Assert.Throws<ArgumentException>(() => SheetFit.Of(Of(KeepDry())));

    [Fact]
    public void Reference_OfSaturatedAir_IsRefused() =>
        Assert.Throws<ArgumentOutOfRangeException>(() => SheetFit.Of(Of(Carrier.Water, Climate(20, 100), KeepDry(Row(20, 50, 12)))));
}
