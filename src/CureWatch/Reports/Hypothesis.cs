namespace CureWatch.Reports;

/// <summary>What somebody would like to know the outcome of; what is null stays as it is.</summary>
/// <param name="AirC">The temperature at which the bay is held from now on [°C]; its moisture stays.</param>
/// <param name="HumidityPct">The humidity at which it is held from now on [% RH].</param>
/// <param name="StartAt">When the work that is left is begun.</param>
/// <param name="PromisedAt">The pick-up time.</param>
public sealed record Hypothesis(double? AirC = null, double? HumidityPct = null, DateTimeOffset? StartAt = null, DateTimeOffset? PromisedAt = null)
{
    /// <summary>The surface that gets a lamp, and the minutes inside its sheet's band; null where none does.</summary>
    public (string Surface, int Minutes)? Lamp { get; init; }

    /// <summary>The sheet that a surface's first product is taken from instead; null where it stays.</summary>
    public (string Surface, string Product, int Revision)? Sheet { get; init; }
}
