namespace CureWatch.Readings;

/// <summary>What a probe was found to be off by when it was compared with something better.</summary>
/// <param name="From">From when on it is applied, to what is measured then; what was measured before stays as it was corrected then.</param>
/// <param name="TemperatureK">Added to its temperature [K], in place of what was added before.</param>
/// <param name="HumidityPct">Added to its humidity [% RH], in place of what was added before.</param>
/// <param name="Note">Against what, and by whom; null where nobody said.</param>
public sealed record Calibration(DateTimeOffset From, double TemperatureK, double HumidityPct, string? Note = null);
