using System.Collections.Immutable;
using CureWatch.Panels;

namespace CureWatch.Bays;

/// <summary>An instant from which on the air of a place in a bay is measured, or is no more: a probe was fitted where there was none, or the only one taken away.</summary>
/// <param name="At">When the plan was changed.</param>
/// <param name="Air">The place that stands for the air.</param>
/// <param name="WasMeasured">Whether it was measured before.</param>
/// <remarks>What a car was not watched in stays unwatched when a probe is fitted later, and what was measured stays so when it is taken away.</remarks>
public sealed record AirChange(DateTimeOffset At, Place Air, bool WasMeasured)
{
    private static readonly ImmutableArray<Place> Airs = [.. Enum.GetValues<Place>().Select(PlaceAir.Of).Distinct()];

    /// <summary>What a change of a bay's plan changes of it.</summary>
    internal static IEnumerable<AirChange> Between(BayPlan before, BayPlan after, DateTimeOffset now) =>
        from air in Airs
        where IsMeasuredIn(before, air) != IsMeasuredIn(after, air)
        select new AirChange(now, air, IsMeasuredIn(before, air));

    private static bool IsMeasuredIn(BayPlan plan, Place air) => new WatchPoint(plan.Bay, air, Material.Steel).IsMeasuredIn(plan);
}
