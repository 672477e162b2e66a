using System.Collections.Immutable;
using CureWatch.Bays;

namespace CureWatch.Service.Settings;

/// <summary>What <c>shop.json</c> says: the plan the library works with, and how each probe's messages are decoded.</summary>
internal sealed record ShopSettings(ShopPlan Plan, ImmutableArray<ProbeWiring> Wiring);

/// <summary>Where a probe's messages come from and what is where in them.</summary>
/// <param name="Bay">The bay's id.</param>
/// <param name="Probe">The probe's id.</param>
/// <param name="Topic">The MQTT topic its messages come on.</param>
/// <param name="Fields">Where the values are; null where a message is a bare number or carries this program's own keys.</param>
/// <param name="Unit">The unit of the temperature in a message.</param>
internal sealed record ProbeWiring(string Bay, string Probe, string Topic, ProbeFields? Fields, TemperatureUnit Unit);

/// <summary>Where in a message the values are, as JSON Pointers (RFC 6901).</summary>
internal sealed record ProbeFields(string Temperature, string? Humidity, string? Time, string? Sequence = null);

/// <summary>The unit of a temperature in a message.</summary>
internal enum TemperatureUnit
{
    Celsius,
    Fahrenheit,
}
