using System.Collections.Immutable;
using CureWatch.Curing;

namespace CureWatch.Bays;

/// <summary>One car's work.</summary>
/// <param name="Id">The job's id.</param>
/// <param name="Bay">The bay it starts in.</param>
/// <param name="Car">The car, in the shop's words.</param>
/// <param name="PromisedAt">The pick-up time told to the customer.</param>
/// <param name="Surfaces">The surfaces to coat, in the order they were planned.</param>
public sealed record Job(string Id, string Bay, string? Car, DateTimeOffset? PromisedAt, ImmutableArray<Surface> Surfaces)
{
    /// <summary>When it comes and is to be begun; null where the car was here when the job was opened, and nobody planned its start.</summary>
    public Visit? Visit { get; init; }
}

/// <summary>When a car is planned to come and to be coated.</summary>
/// <param name="ArrivesAt">When it comes; null where it is here.</param>
/// <param name="ArrivesAtC">How cold or warm it comes [°C], −40 to 60; null where nobody said.</param>
/// <param name="PlannedAt">When its coating is to begin; null for as soon as it fits.</param>
public sealed record Visit(DateTimeOffset? ArrivesAt, double? ArrivesAtC, DateTimeOffset? PlannedAt)
{
    /// <summary>The coldest and the hottest a car comes in [°C]. Source (choice).</summary>
    public const double ColdestC = -40, HottestC = 60;
}
