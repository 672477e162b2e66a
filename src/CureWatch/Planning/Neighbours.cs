using System.Collections.Immutable;

namespace CureWatch.Planning;

/// <summary>What others do in the air a surface would be coated in, or are about to.</summary>
/// <param name="Job">The job of the surface.</param>
/// <param name="Bay">The bay it is in.</param>
/// <param name="Airspace">The bay's air.</param>
/// <param name="Works">The work that is not over.</param>
/// <param name="Risks">How long each of its layers is at risk that are still to go on, the next one first.</param>
public sealed record Neighbours(string Job, string Bay, string Airspace, ImmutableArray<AirWork> Works, ImmutableArray<RiskTimes> Risks)
{
    /// <summary>The layers of a surface as that work may harm them, if they go as planned.</summary>
    /// <param name="plan">The work on the surface.</param>
    internal ImmutableArray<CoatAtRisk> CoatsOf(WorkPlan plan) =>
        [.. plan.Layers.Select((l, i) => CoatAtRisk.Planned(Job, Bay, Airspace, l, Risks[i], i + 1 < plan.Layers.Length ? plan.Layers[i + 1].BeginsAt : null))];
}
