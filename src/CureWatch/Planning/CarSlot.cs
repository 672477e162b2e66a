using System.Collections.Immutable;
using CureWatch.TimeWindows;

namespace CureWatch.Planning;

/// <summary>A car's work as it would go if it were begun at an instant.</summary>
/// <param name="Start">The instant.</param>
/// <param name="Plan">The work; null where it cannot be timed.</param>
/// <param name="ReadyAt">When its last keep-dry ends; null where it cannot be timed.</param>
/// <param name="Coats">Its coats, as what others do may harm them.</param>
/// <param name="Reasons">Every reason against beginning then, the hardest first.</param>
public sealed record CarSlot(
    DateTimeOffset Start, WorkPlan? Plan, TimeBounds? ReadyAt, ImmutableArray<CoatAtRisk> Coats, ImmutableArray<StartReason> Reasons)
{
    /// <summary>What others do in its air at the first start that nothing else rules out; empty where that is this one, or it was not searched for.</summary>
    public ImmutableArray<StartReason> HeldOffBy { get; init; } = [];

    /// <summary>Whether all of it fits: arrival, application, keep-dry, what others do, and the promise.</summary>
    public bool Fits => Reasons.All(r => r.Weight == StartWeight.Notes);

    /// <summary>Whether all of it but the promise fits, which no later start keeps better.</summary>
    public bool IsPossible => Reasons.All(r => r.Weight == StartWeight.Notes || r.Kind == StartReasonKind.Promise);

    /// <summary>Whether nothing is in the way of it but what others do in its air, or nothing at all.</summary>
    public bool IsPossibleBesideOthers => Reasons.All(r => r.Weight == StartWeight.Notes || r.Kind is StartReasonKind.SharedAir or StartReasonKind.Promise);
}
