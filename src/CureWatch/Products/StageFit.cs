using System.Collections.Immutable;

namespace CureWatch.Products;

/// <summary>What a sheet's rows say about one stage, as a rate law and the time at the reference climate.</summary>
/// <param name="Stage">The stage.</param>
/// <param name="DrivenBy">The clock it runs on.</param>
/// <param name="Law">The rate law of that stage.</param>
/// <param name="ReferenceHours">The time at the reference climate [h]; in flash the earliest levelling.</param>
/// <param name="Covariance">How sure the fit is.</param>
/// <param name="Rows">The rows with the fitted times, in the sheet's order.</param>
/// <param name="IfMissed">Whether acting too late matters.</param>
/// <param name="LearnsActivationEnergy">False where the rows hardly speak of temperature: the energy is the prior's.</param>
/// <param name="LearnsHumidityExponent">False where the rows hardly speak of humidity: the exponent is the prior's, or known.</param>
/// <param name="To">
/// In flash the second milestone, its usual end: the same law with its own reference hours, covariance and rows. Null in every other stage.
/// </param>
public sealed record StageFit(
    Stage Stage,
    Mechanism DrivenBy,
    RateLaw Law,
    double ReferenceHours,
    FitCovariance Covariance,
    ImmutableArray<FittedRow> Rows,
    IfMissed IfMissed,
    bool LearnsActivationEnergy,
    bool LearnsHumidityExponent,
    StageFit? To = null)
{
    /// <summary>The usual end of a flash at the reference climate [h], not below <see cref="ReferenceHours"/>; null elsewhere.</summary>
    public double? ToReferenceHours => To?.ReferenceHours;

    /// <summary>Finds how sure the fit is of the stage's time in a climate, or in the mean terms of a climate that moved.</summary>
    /// <param name="x">Temperature term [mol/J], as in <see cref="FitTerms.X"/>.</param>
    /// <param name="y">Humidity term [1], as in <see cref="FitTerms.Y"/>.</param>
    /// <returns>Variance of ln hours [1], 0 or more; of the first milestone in flash, <see cref="To"/> has its own.</returns>
    public double VarianceOfLnHours(double x, double y) => Covariance.VarianceOfLnHours(x, y);
}
