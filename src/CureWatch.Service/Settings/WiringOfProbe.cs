using System.Text;
using System.Text.RegularExpressions;
using CureWatch.Readings;

namespace CureWatch.Service.Settings;

/// <summary>A probe's topic, and what is where in its messages, as people write them.</summary>
internal static partial class WiringOfProbe
{
    private const string TopicAllowed = "an MQTT topic without wildcards, such as sensors/bay-1/air";
    private const string PointerAllowed = "a JSON Pointer (RFC 6901), such as /main/temperature";

    /// <summary>An MQTT string carries its length in two bytes (MQTT 5, section 1.5.4).</summary>
    private const int LongestTopicBytes = 65_535;

    public static ProbeWiring Read(JsonCursor place, string shop, string bay, string probe, Measures? measures)
    {
        string root = $"curewatch/v1/{shop}/";
        string topic = place["topic"].String(IsTopic, TopicAllowed) ?? $"{root}{bay}/probe/{probe}";
        if (topic.StartsWith(root, StringComparison.Ordinal) && topic[root.Length..].Split('/') is not [_, "probe", _])
        {
            // What is written there comes from this program: a probe heard there would be its own echo.
            place["topic"].Refuse($"a topic outside {root}, or one of its {{bay}}/probe/{{probe}}");
        }

        return new ProbeWiring(bay, probe, topic, Fields(place["fields"], measures), Unit(place, measures));
    }

    private static ProbeFields? Fields(JsonCursor fields, Measures? measures)
    {
        if (fields.IsAbsent || !fields.Keys(IsOfAir(measures) ? ["temperature", "humidity"] : ["temperature"], "humidity", "time", "sequence"))
        {
            return null;
        }

        string? temperature = Pointer(fields["temperature"]), humidity = Pointer(fields["humidity"]), time = Pointer(fields["time"]);
        string? sequence = Pointer(fields["sequence"]);
        return temperature is null ? null : new ProbeFields(temperature, humidity, time, sequence);
    }

    private static TemperatureUnit Unit(JsonCursor place, Measures? measures)
    {
        JsonCursor unit = place["unit"];
        if (unit.String(u => u is "C" or "F", "C | F") != "F")
        {
            return TemperatureUnit.Celsius;
        }

        if (IsOfAir(measures) && place["fields"].IsAbsent)
        {
            unit.Refuse("C where there are no fields: temperatureC is in °C");
        }

        return TemperatureUnit.Fahrenheit;
    }

    private static bool IsOfAir(Measures? measures) => measures is Measures.Air or Measures.Outdoor;

    private static string? Pointer(JsonCursor place) => place.String(p => JsonPointer().IsMatch(p), PointerAllowed);

    private static bool IsTopic(string topic) =>
        topic.Length > 0 && Encoding.UTF8.GetByteCount(topic) <= LongestTopicBytes && !topic.Any(c => c is '+' or '#' || char.IsControl(c));

    [GeneratedRegex(@"\A(/([^~/]|~[01])*)*\z")]
    private static partial Regex JsonPointer();
}
