using CureWatch.Learning;
using CureWatch.Products;

namespace CureWatch.TimeWindows;

/// <summary>What a clock has to reach.</summary>
/// <param name="ReferenceHours">The time at the sheet's reference climate [h].</param>
/// <param name="Hours">How sure the sheet is of that time.</param>
/// <param name="Law">How sure the sheet is of the law the clock runs on.</param>
public sealed record Milestone(double ReferenceHours, FitCovariance Hours, FitCovariance Law)
{
    /// <summary>The time of the sheet's slowest row, which counts where nobody measures; null where no such time may be counted on.</summary>
    public TimeSpan? Slowest { get; private init; }

    /// <summary>A stage on its own law.</summary>
    /// <param name="fit">The stage.</param>
    /// <returns>The milestone; an opening or an end of cure has a slowest row, what must not come too late has none.</returns>
    public static Milestone Of(StageFit fit) => new(fit.ReferenceHours, fit.Covariance, fit.Covariance)
    {
        Slowest = fit.Stage is Stage.RecoatFrom or Stage.KeepDry or Stage.NoWash or Stage.FullCure ? fit.Rows.Max(r => r.Row.To) : null,
    };

    /// <summary>Variance of ln hours [1] that what was learnt adds to the sheet's; 0 where the time is the sheet's own.</summary>
    public double LearntVariance { get; private init; }

    /// <summary>The milestone as people see it come.</summary>
    /// <param name="effect">What they taught.</param>
    /// <returns>The milestone: the sheet's time moved, the two doubts added.</returns>
    public Milestone As(LearntEffect effect) =>
        this with { ReferenceHours = ReferenceHours * effect.Factor, LearntVariance = effect.Variance };

    /// <summary>How sure the sheet is of the time in a climate, and what was learnt of the time.</summary>
    /// <param name="x">Temperature term [mol/J].</param>
    /// <param name="y">Humidity term [1].</param>
    /// <returns>Variance of ln hours [1].</returns>
    /// <remarks>Edges: where time and law come from two stages, their errors are independent.</remarks>
    public double VarianceOfLnHours(double x, double y) => LearntVariance + VarianceOfTheSheet(x, y);

    private double VarianceOfTheSheet(double x, double y) => Hours == Law
        ? Hours.VarianceOfLnHours(x, y)
        : Hours.LnHours + (Law with { LnHours = 0, LnHoursEnergy = 0, LnHoursExponent = 0 }).VarianceOfLnHours(x, y);
}
