namespace CureWatch.Products;

/// <summary>How sure a fit is of its three numbers: ln of the reference hours, activation energy and humidity exponent.</summary>
/// <param name="LnHours">Variance of ln reference hours [1].</param>
/// <param name="Energy">Variance of the activation energy [(J/mol)²].</param>
/// <param name="Exponent">Variance of the humidity exponent [1]; 0 where the exponent is known.</param>
/// <param name="LnHoursEnergy">Covariance of ln reference hours with the activation energy [J/mol].</param>
/// <param name="LnHoursExponent">Covariance of ln reference hours with the exponent [1].</param>
/// <param name="EnergyExponent">Covariance of the activation energy with the exponent [J/mol].</param>
/// <remarks>
/// It is the inverse of the normal matrix, priors included and bounds left out, also for a number that lies on its bound. Cutting a
/// normal law off at bounds only narrows it (Brascamp and Lieb 1976), so this never understates what rows and priors leave open. It does
/// not tell whether the rows follow such a law at all: the residuals do.
/// The default is a fit with nothing left open.
/// </remarks>
public readonly record struct FitCovariance(
    double LnHours, double Energy, double Exponent, double LnHoursEnergy, double LnHoursExponent, double EnergyExponent)
{
    /// <summary>Standard error of ln reference hours [1]: 0.05 is about 5 % of the hours.</summary>
    public double StdErrorLnReferenceHours => Math.Sqrt(LnHours);

    /// <summary>Standard error of the activation energy [kJ/mol].</summary>
    public double StdErrorActivationEnergyKJmol => Math.Sqrt(Energy) / 1000;

    /// <summary>Standard error of the humidity exponent [1].</summary>
    public double StdErrorHumidityExponent => Math.Sqrt(Exponent);

    /// <summary>Finds how sure the fit is of the stage's time in a climate, or in the mean terms of a climate that moved.</summary>
    /// <param name="x">Temperature term [mol/J], as in <see cref="FitTerms.X"/>.</param>
    /// <param name="y">Humidity term [1], as in <see cref="FitTerms.Y"/>.</param>
    /// <returns>Variance of ln hours [1], 0 or more.</returns>
    /// <remarks>Equation: (1, x, −y) C (1, x, −y)ᵀ.</remarks>
    public double VarianceOfLnHours(double x, double y) =>
        Math.Max(
            0,
            LnHours + (x * x * Energy) + (y * y * Exponent)
            + (2 * ((x * LnHoursEnergy) - (y * LnHoursExponent) - (x * y * EnergyExponent))));
}
