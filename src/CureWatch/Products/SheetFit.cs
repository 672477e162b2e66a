using System.Collections.Immutable;

namespace CureWatch.Products;

/// <summary>A product sheet turned into rate laws and reference hours.</summary>
/// <param name="Sheet">The sheet.</param>
/// <param name="Stages">The sheet's own stages, in the sheet's order.</param>
public sealed record SheetFit(ProductSheet Sheet, ImmutableArray<StageFit> Stages)
{
    /// <summary>
    /// The last safe moment to level: the sheet's own, else the usual end of its flash, where levelling too late is a hold. Null where
    /// the sheet has neither.
    /// </summary>
    public StageFit? LevelBy =>
        Find(Stage.LevelBy) ?? (Find(Stage.Flash)?.To is { } end ? end with { Stage = Stage.LevelBy, IfMissed = IfMissed.Hold } : null);

    /// <summary>Fits every stage of a sheet.</summary>
    /// <param name="sheet">The sheet; its reference humidity below 100 %.</param>
    /// <returns>The fits, with E 20 to 110 kJ/mol and m 0 to 1.5; every law is 1 at the sheet's reference climate.</returns>
    /// <remarks>
    /// Edges: one row is met exactly and leaves E and m at their priors; rows at several temperatures and one humidity teach E alone. A
    /// range counts as its geometric mean. A reference outside 5 to 85 %, where moisture is clamped, is itself not quite at a rate of 1.
    /// </remarks>
    /// <exception cref="ArgumentOutOfRangeException">The reference humidity is outside its range.</exception>
    /// <exception cref="ArgumentException">A stage has no row, or a row whose times are not 0 &lt; From ≤ To.</exception>
    public static SheetFit Of(ProductSheet sheet)
    {
        double fraction = sheet.Reference.Humidity.Fraction;
        if (fraction is not (> 0 and < 1))
        {
            throw new ArgumentOutOfRangeException(nameof(sheet), fraction, "Expected a reference humidity above 0, below 100 %.");
        }

        return new SheetFit(
            sheet,
            [.. sheet.Stages.Select(stage => StageFitting.Of(stage, sheet.Reference, Priors.Of(stage.DrivenBy, sheet.Carrier)))]);
    }

    /// <summary>Finds the fit of a stage.</summary>
    /// <param name="stage">The stage.</param>
    /// <returns>The fit, or null where the sheet is silent.</returns>
    public StageFit? Find(Stage stage) => Stages.FirstOrDefault(fit => fit.Stage == stage);
}
