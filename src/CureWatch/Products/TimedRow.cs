using System.Collections.Immutable;

namespace CureWatch.Products;

/// <summary>A row read as one time with a scatter.</summary>
/// <param name="Row">The row.</param>
/// <param name="Terms">Its climate in the terms of the fit.</param>
/// <param name="Hours">The time [h].</param>
/// <param name="Deviation">Standard deviation of ln hours [1].</param>
internal sealed record TimedRow(SheetRow Row, FitTerms Terms, double Hours, double Deviation)
{
    /// <summary>No row is trusted better than this [1], about 10 %. Source (choice): sheets round their times.</summary>
    private const double LeastDeviation = 0.10;

    /// <summary>Deviations between the ends of a range, read as 5 % and 95 % of a normal law. Source (choice): 2 × 1.645.</summary>
    private const double DeviationsInRange = 3.29;

    /// <summary>Reads a stage's rows.</summary>
    /// <param name="stage">The stage.</param>
    /// <param name="reference">The reference climate.</param>
    /// <param name="byDeficit">True where drying is driven by the deficit.</param>
    /// <returns>In flash the rows' From and their To, in every other stage the middle of each range.</returns>
    /// <exception cref="ArgumentException">The stage has no row, or a row whose times are not 0 &lt; From ≤ To.</exception>
    public static ImmutableArray<ImmutableArray<TimedRow>> MilestonesOf(SheetStage stage, ReferenceClimate reference, bool byDeficit)
    {
        if (stage.Rows.IsDefaultOrEmpty || stage.Rows.Any(row => row.From <= TimeSpan.Zero || row.To < row.From))
        {
            throw new ArgumentException($"The stage {stage.Stage} needs a row, and times above zero in order.", nameof(stage));
        }

        return stage.Stage == Stage.Flash ? [Read(From), Read(To)] : [Read(Middle)];

        ImmutableArray<TimedRow> Read(Func<SheetRow, FitTerms, TimedRow> timed) =>
            [.. stage.Rows.Select(row => timed(row, FitTerms.Of(row.Temperature, row.Humidity, reference, byDeficit)))];
    }

    /// <summary>Sets the fitted time beside the row.</summary>
    /// <param name="lnReferenceHours">ln of the reference hours found.</param>
    /// <param name="law">The law found.</param>
    /// <returns>The row with both times.</returns>
    public FittedRow Fitted(double lnReferenceHours, RateLaw law) =>
        new(Row, Terms, Hours, Math.Exp(lnReferenceHours + (law.ActivationEnergyJmol * Terms.X) - (law.HumidityExponent * Terms.Y)));

    private static TimedRow From(SheetRow row, FitTerms terms) => new(row, terms, row.From.TotalHours, LeastDeviation);

    private static TimedRow To(SheetRow row, FitTerms terms) => new(row, terms, row.To.TotalHours, LeastDeviation);

    private static TimedRow Middle(SheetRow row, FitTerms terms) =>
        new(
            row,
            terms,
            Math.Sqrt(row.From.TotalHours * row.To.TotalHours),
            Math.Max(LeastDeviation, Math.Log(row.To / row.From) / DeviationsInRange));
}
