using System.Collections.Immutable;

namespace CureWatch.Products;

/// <summary>Fits one stage of a sheet.</summary>
/// <remarks>
/// Equation: ln h = ln D + E·x − m·y for every row, each weighed by its scatter; priors are one more row for E and one for m.
/// Flash has two times D that share E and m. Source: the rate law (law); weights and priors (choice).
/// </remarks>
internal static class StageFitting
{
    /// <summary>A number whose standard error is above this share of its prior's was not learnt from the rows. Source (choice).</summary>
    private const double HardlyLearnt = 0.95;

    /// <summary>Fits.</summary>
    /// <param name="stage">The stage with its rows.</param>
    /// <param name="reference">The climate the reference hours are for.</param>
    /// <param name="priors">What is known beforehand.</param>
    /// <returns>The fit.</returns>
    public static StageFit Of(SheetStage stage, ReferenceClimate reference, Priors priors)
    {
        ImmutableArray<ImmutableArray<TimedRow>> milestones = TimedRow.MilestonesOf(stage, reference, priors.IsByDeficit);
        var unknowns = new Unknowns(milestones.Length, !priors.IsByDeficit);
        var squares = new LeastSquares(
        [
            .. milestones.SelectMany((rows, milestone) => rows.Select(row => unknowns.Seen(row, milestone, priors))),
            .. unknowns.Believed(priors),
        ]);
        double[] found = squares.Minimum(unknowns.Bounds);
        double[,] covariance = squares.Covariance();
        var law = new RateLaw(
            stage.DrivenBy,
            priors.IsByDeficit,
            found[unknowns.Energy],
            unknowns.Exponent is int exponent ? found[exponent] : priors.Exponent,
            reference)
        {
            Doubt = unknowns.CovarianceOf(0, covariance) with { LnHours = 0, LnHoursEnergy = 0, LnHoursExponent = 0 },
        };

        StageFit first = Milestone(0);
        return milestones.Length > 1 ? first with { To = Milestone(1) } : first;

        StageFit Milestone(int milestone)
        {
            FitCovariance sure = unknowns.CovarianceOf(milestone, covariance);
            return new StageFit(
                stage.Stage,
                stage.DrivenBy,
                law,
                Math.Exp(found[milestone]),
                sure,
                [.. milestones[milestone].Select(row => row.Fitted(found[milestone], law))],
                stage.IfMissed,
                Math.Sqrt(sure.Energy) <= HardlyLearnt * priors.EnergyDeviationJmol,
                Math.Sqrt(sure.Exponent) <= HardlyLearnt * priors.ExponentDeviation && unknowns.Exponent is not null);
        }
    }
}
