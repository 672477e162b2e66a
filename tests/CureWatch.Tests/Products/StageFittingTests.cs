using CsCheck;
using CureWatch.Products;
using static CureWatch.Tests.Products.Sheets;

namespace CureWatch.Tests.Products;

public class StageFittingTests
{
    private static readonly Gen<SheetRow> AnyRow = Gen.Select(
        Gen.Double[5, 40], Gen.Double[6, 99], Gen.Double[0.05, 200], Gen.Double[1, 3],
        (t, rh, hours, spread) => Row(t, rh, hours, hours * spread));

    private static readonly Gen<SheetStage> AnyStage =
        Gen.Select(AnyRow.Array[1, 8], Gen.Bool, (rows, flash) => flash ? Flash(rows) : KeepDry(rows));

    private static readonly Gen<Priors> AnyPriors = 
        Gen.OneOf(Gen.Const(Priors.Cure), Gen.Const(Priors.Evaporation), Gen.Const(Priors.ByDeficit));

    /// <summary>Source: MathNet.Numerics 5.0.0, see <see cref="QrFit"/>.</summary>
    [Fact]
    public void Fit_OfRandomRows_IsTheLeastSquaresInsideTheBounds()
    {
        int pinned = 0, free = 0;
        Gen.Select(AnyStage, AnyPriors).Sample(
            (stage, priors) =>
            {
                StageFit fit = StageFitting.Of(stage, ReferenceClimate.Usual, priors);
                var oracle = new QrFit(stage, priors);
                double[] found = oracle.UnknownsOf(fit);
                Assert.True(oracle.IsLeastInsideTheBounds(found), $"({string.Join(", ", found)}) is not the minimum.");
                if (oracle.KeepsTheBounds)
                {
                    free++;
                    Assert.Equal(oracle.Free, found, (a, b) => Math.Abs(a - b) < 1e-8 * (1 + Math.Abs(a)));
                }
                else
                {
                    pinned++;
                }
            },
            iter: 2000);
        Assert.InRange(pinned, 200, int.MaxValue);
        Assert.InRange(free, 10, int.MaxValue);
    }

    /// <summary>Source: as above; the variance of a time is asked for in random climates, so every entry of the covariance counts.</summary>
    [Fact]
    public void VarianceOfLnHours_OfRandomRows_IsThatOfTheNormalMatrix() =>
        Gen.Select(AnyStage, AnyPriors, Gen.Double[-3e-5, 3e-5], Gen.Double[-2, 1]).Sample(
            (stage, priors, x, y) =>
            {
                StageFit fit = StageFitting.Of(stage, ReferenceClimate.Usual, priors);
                var oracle = new QrFit(stage, priors);
                Assert.Equal(1, fit.VarianceOfLnHours(x, y) / oracle.VarianceOfLnHours(0, x, y), 1e-8);
                if (fit.To is { } to)
                {
                    Assert.Equal(1, to.VarianceOfLnHours(x, y) / oracle.VarianceOfLnHours(1, x, y), 1e-8);
                }
            },
            iter: 1000);

    [Fact]
    public void Fit_OfRandomFlashRows_NeverEndsBeforeItBegins() =>
        AnyRow.Array[1, 8].Sample(rows =>
        {
            StageFit fit = StageFitting.Of(Flash(rows), ReferenceClimate.Usual, Priors.Evaporation);
            return fit.To!.ReferenceHours >= fit.ReferenceHours * (1 - 1e-12);
        });
}
