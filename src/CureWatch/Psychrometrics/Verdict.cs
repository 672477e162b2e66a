namespace CureWatch.Psychrometrics;

/// <summary>Whether a panel stays dry, judged by its spread alone.</summary>
public enum Verdict
{
    /// <summary>The panel is at or below the condensation temperature: water or frost forms on it.</summary>
    Wet,

    /// <summary>Above the condensation temperature, by less than is wanted.</summary>
    Marginal,

    /// <summary>Far enough above the condensation temperature.</summary>
    Dry,
}
