using CureWatch.Psychrometrics;

namespace CureWatch.Forecasting;

/// <summary>How likely something happens in the hours that are to come, when, and for how long.</summary>
/// <param name="Chance">How likely it happens at all in that time [1].</param>
/// <param name="SoonChance">How likely it happens in a shorter time [1].</param>
/// <param name="FromHours">Where it happens, when it most likely begins [h ahead]; null where it happens in next to no scenario.</param>
/// <param name="LastsHours">How long it then most likely lasts in that time [h].</param>
internal readonly record struct RiskAhead(double Chance, double SoonChance, double? FromHours, double? LastsHours)
{
    /// <summary>Weighs the scenarios.</summary>
    /// <param name="scenarios">The scenarios.</param>
    /// <param name="within">Up to how far ahead is looked [h].</param>
    /// <param name="doubt">Standard deviation of what is measured, in its unit, above 0.</param>
    /// <param name="excessOf">How far beyond its limit it is, in the same unit.</param>
    /// <param name="soon">The shorter time [h].</param>
    /// <param name="begins">From how far ahead on is looked [h].</param>
    /// <returns>The risk.</returns>
    public static RiskAhead Of(Scenarios scenarios, double within, double doubt, Func<ScenarioPoint, double> excessOf, double soon = 0, double begins = 0)
    {
        int first = Scenarios.FirstKnot(begins);
        double all = 0, happens = 0, happensSoon = 0;
        var begun = new List<(double Hours, double Weight)>();
        var lasted = new List<(double Hours, double Weight)>();
        foreach (Scenario scenario in scenarios.All)
        {
            double most = double.NegativeInfinity, mostSoon = most, before = double.NegativeInfinity, beginsAt = double.NaN, beyondHours = 0;
            for (int k = first; k < scenario.Points.Length && (k == first || Scenarios.Knots[k] <= within); k++)
            {
                double excess = excessOf(scenario.Points[k]);
                most = Math.Max(most, excess);
                mostSoon = Scenarios.Knots[k] <= soon ? most : mostSoon;
                double since = k == first ? 0 : Scenarios.Knots[k] - Scenarios.Knots[k - 1];
                if (excess > 0 && double.IsNaN(beginsAt))
                {
                    beginsAt = Scenarios.Knots[k] - (k == first ? 0 : since * excess / (excess - before));
                }

                beyondHours += excess > 0 ? before > 0 ? since : since / 2 : before > 0 ? since / 2 : 0;
                before = excess;
            }

            all += scenario.Weight;
            happens += scenario.Weight * NormalDistribution.ChanceBelow(most / doubt);
            happensSoon += scenario.Weight * NormalDistribution.ChanceBelow(mostSoon / doubt);
            if (!double.IsNaN(beginsAt))
            {
                begun.Add((beginsAt, scenario.Weight));
                lasted.Add((beyondHours, scenario.Weight));
            }
        }

        return begun.Count == 0
            ? new RiskAhead(happens / all, happensSoon / all, null, null)
            : new RiskAhead(happens / all, happensSoon / all, Weighed.Median(begun), Weighed.Median(lasted));
    }
}
