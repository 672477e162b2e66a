namespace CureWatch.Service.People;

/// <summary>How somebody wants to be spoken to.</summary>
/// <param name="Language">The code of a language; null where they never chose.</param>
/// <param name="Degrees">The degrees they reckon in, C or F; null where they never chose.</param>
internal sealed record TongueChoice(string? Language, string? Degrees)
{
    public static TongueChoice None { get; } = new(null, null);

    /// <summary>This choice, and another's where this says nothing.</summary>
    public TongueChoice Else(TongueChoice? other) => new(Language ?? other?.Language, Degrees ?? other?.Degrees);
}
