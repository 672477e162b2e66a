using CureWatch.Curing;

namespace CureWatch.Service.Book;

/// <summary>A tap as it can be looked up: without who told it and without their words, which are in the journal alone, sealed.</summary>
/// <param name="Number">The number of its entry.</param>
/// <param name="Job">The job's id.</param>
/// <param name="Tap">What was told.</param>
internal sealed record BookedTap(long Number, string Job, Tap Tap);
