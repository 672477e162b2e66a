namespace CureWatch.Products;

/// <summary>A sheet's row beside what the fit makes of it.</summary>
/// <param name="Row">The row.</param>
/// <param name="Terms">The row's climate in the terms of the fit.</param>
/// <param name="SheetHours">The time fitted [h]: the geometric mean of a range; in flash the milestone's own time.</param>
/// <param name="FittedHours">The time the fit gives in the row's climate [h].</param>
public sealed record FittedRow(SheetRow Row, FitTerms Terms, double SheetHours, double FittedHours)
{
    /// <summary>How far the fit is above the sheet [%]; below 0 where it is faster.</summary>
    public double ResidualPct => 100 * ((FittedHours / SheetHours) - 1);
}
