using System.Collections.Immutable;
using CureWatch.Curing;

namespace CureWatch.Service.Book;

/// <summary>A job as it can be looked up. What names a person is in the journal alone, sealed.</summary>
/// <param name="Number">The number of the entry that began it: a later job has a higher one.</param>
/// <param name="Id">Its id.</param>
/// <param name="Bay">The bay it began in.</param>
/// <param name="StartedAt">When it was begun.</param>
/// <param name="PromisedAt">The pick-up time told to the customer.</param>
/// <param name="Left">How the car left; null while it is here.</param>
/// <param name="Surfaces">The surfaces to coat, in the order they were planned.</param>
internal sealed record BookedJob(
    long Number,
    string Id,
    string Bay,
    DateTimeOffset StartedAt,
    DateTimeOffset? PromisedAt,
    BookedDeparture? Left,
    ImmutableArray<Surface> Surfaces);
