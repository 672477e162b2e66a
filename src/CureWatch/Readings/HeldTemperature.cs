namespace CureWatch.Readings;

/// <summary>What is taken for the temperature of an air whose probe is warmed by something else.</summary>
/// <param name="Kelvins">The temperature [K].</param>
/// <param name="WithinK">How far it may be off [K], 0 or more.</param>
public sealed record HeldTemperature(double Kelvins, double WithinK);
