namespace CureWatch.Learning;

/// <summary>What was known beyond the sheet when a coat was begun. The coat keeps it, so that nothing it was told jumps.</summary>
/// <param name="Flash">Of its flash; null where nobody had taught anything.</param>
/// <param name="KeepDry">Of its drying; null where nobody had taught anything, or keep-dry is no drying.</param>
public sealed record Learnt(LearntEffect? Flash, LearntEffect? KeepDry)
{
    /// <summary>Nothing but the sheet.</summary>
    public static Learnt Nothing { get; } = new(null, null);
}
