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

        return new ProbeWiring(bay, probe, topic, Fields(place["fields"], measures), Unit(place["unit"]));
    }

    private static ProbeFields? Fields(JsonCursor fields, Measures? measures)
    {
        bool needsHumidity = measures is Measures.Air or Measures.Outdoor;
        if (fields.IsAbsent || !fields.Keys(needsHumidity ? ["temperature", "humidity"] : ["temperature"], "humidity", "time", "sequence"))
        {
            return null;
        }

        string? temperature = Pointer(fields["temperature"]), humidity = Pointer(fields["humidity"]), time = Pointer(fields["time"]);
        string? sequence = Pointer(fields["sequence"]);
        return temperature is null ? null : new ProbeFields(temperature, humidity, time, sequence);
    }

    private static TemperatureUnit Unit(JsonCursor place) =>
        place.String(u => u is "C" or "F", "C | F") == "F" ? TemperatureUnit.Fahrenheit : TemperatureUnit.Celsius;

    private static string? Pointer(JsonCursor place) => place.String(p => JsonPointer().IsMatch(p), PointerAllowed);

    private static bool IsTopic(string topic) =>
        topic.Length > 0 && Encoding.UTF8.GetByteCount(topic) <= LongestTopicBytes && !topic.Any(c => c is '+' or '#' || char.IsControl(c));

    [GeneratedRegex(@"\A(/([^~/]|~[01])*)*\z")]
    private static partial Regex JsonPointer();
}
