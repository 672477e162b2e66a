namespace CureWatch.Planning;

/// <summary>Work other than coating that somebody plans in a bay.</summary>
/// <param name="Id">Its id.</param>
/// <param name="Bay">The bay.</param>
/// <param name="Work">The work.</param>
/// <param name="From">When it begins.</param>
/// <param name="To">When it ends, after <paramref name="From"/>.</param>
/// <param name="By">Who plans it.</param>
/// <param name="Note">In their words.</param>
public sealed record PlannedWork(string Id, string Bay, HarmfulWork Work, DateTimeOffset From, DateTimeOffset To, string? By, string? Note);

/// <summary>Work in an air, planned or going on.</summary>
/// <param name="Id">The id of what was planned; null where it follows from what people told.</param>
/// <param name="Job">The job whose car it is done to; null where nobody said.</param>
/// <param name="Bay">The bay.</param>
/// <param name="Airspace">The air, which other bays may share.</param>
/// <param name="Work">The work.</param>
/// <param name="From">When it begins, or began.</param>
/// <param name="To">When it ends.</param>
public sealed record AirWork(string? Id, string? Job, string Bay, string Airspace, HarmfulWork Work, DateTimeOffset From, DateTimeOffset To);
