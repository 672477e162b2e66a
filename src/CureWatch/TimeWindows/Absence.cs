namespace CureWatch.TimeWindows;

/// <summary>A stretch that a coat spent where nobody measures.</summary>
/// <param name="From">Since when.</param>
/// <param name="To">Until when; null while it lasts.</param>
public sealed record Absence(DateTimeOffset From, DateTimeOffset? To);
