namespace CureWatch.Service.Book;

/// <summary>How a car left, as it can be looked up.</summary>
/// <param name="Number">The number of the entry: a car that left later has a higher one.</param>
/// <param name="At">When it left.</param>
/// <param name="WasHeld">Whether something held it all the same.</param>
internal sealed record BookedDeparture(long Number, DateTimeOffset At, bool WasHeld);
