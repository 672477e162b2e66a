using System.Collections.Immutable;

namespace CureWatch.Handover;

/// <summary>When the shop is open, in its own time zone.</summary>
/// <param name="Zone">The shop's time zone.</param>
/// <param name="Open">The open stretches of each day of the week, in order and apart; a day that is missing is closed.</param>
public sealed record OpeningHours(TimeZoneInfo Zone, ImmutableDictionary<DayOfWeek, ImmutableArray<OpenStretch>> Open);

/// <summary>A stretch of a day in which the shop is open.</summary>
/// <param name="From">Opens at.</param>
/// <param name="To">Closes at, after <paramref name="From"/>.</param>
public readonly record struct OpenStretch(TimeOnly From, TimeOnly To);
