namespace CureWatch.Curing;

/// <summary>Water that touched a surface.</summary>
/// <param name="WettedAt">When.</param>
/// <param name="DriedAt">When it was dried; null while nobody told.</param>
public sealed record Wetting(DateTimeOffset WettedAt, DateTimeOffset? DriedAt);
