using System.Collections.Immutable;
using CureWatch.Curing;

namespace CureWatch.Bays;

/// <summary>One car's work.</summary>
/// <param name="Id">The job's id.</param>
/// <param name="Bay">The bay it starts in.</param>
/// <param name="Car">The car, in the shop's words.</param>
/// <param name="PromisedAt">The pick-up time told to the customer.</param>
/// <param name="Surfaces">The surfaces to coat, in the order they were planned.</param>
public sealed record Job(string Id, string Bay, string? Car, DateTimeOffset? PromisedAt, ImmutableArray<Surface> Surfaces);
