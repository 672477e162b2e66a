namespace CureWatch.Service.Board;

/// <summary>
/// How urgent something is. The colours behind them have the meanings of ISO 22324, and a word or a mark always says the same.
/// </summary>
public enum Tone
{
    /// <summary>Nobody knows: grey.</summary>
    Unknown,

    /// <summary>As it should be: green.</summary>
    Fine,

    /// <summary>Worth knowing, nothing to do: blue.</summary>
    Info,

    /// <summary>Soon, or close to a limit: yellow.</summary>
    Soon,

    /// <summary>Somebody has to act: red.</summary>
    Act,
}
