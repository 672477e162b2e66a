using System.Globalization;
using System.Text.Json;
using CureWatch.Service.Journal;
using CureWatch.Service.Settings;

namespace CureWatch.Fuzz.Targets;

/// <summary>A second opinion on a message: what stands where the settings say, found in the whole document.</summary>
internal static class WrittenReading
{
    public static void Check(Entry.Reading reading, ReadOnlyMemory<byte> payload)
    {
        ProbeWiring wiring = FuzzShop.Register.Settings.Shop!.Wiring.Single(w => w.Bay == reading.Bay && w.Probe == reading.Probe);
        JsonElement top = JsonElement.Parse(payload.Span);
        bool isBare = top.ValueKind == JsonValueKind.Number;
        ProbeFields fields = wiring.Fields ?? new ProbeFields(isBare ? "" : "/temperatureC", "/humidityPct", "/at", "/sequence");
        double temperature = NumberAt(top, fields.Temperature);
        bool isFahrenheit = wiring.Unit == TemperatureUnit.Fahrenheit && (isBare || wiring.Fields is not null);
        double celsius = isFahrenheit ? (temperature - 32) / 1.8 : temperature;
        BrokenPromiseException.Unless((reading.AirC ?? reading.PanelC) == celsius, $"it reads {reading.AirC ?? reading.PanelC}, and {celsius} is written");
        BrokenPromiseException.Unless(reading.HumidityPct is null || reading.HumidityPct == NumberAt(top, fields.Humidity!), "it reads another humidity");
        BrokenPromiseException.Unless(reading.Sequence is null || reading.Sequence == NumberAt(top, fields.Sequence!), "it reads another number");
        BrokenPromiseException.Unless(
            isBare || fields.Time is null || (Find(top, fields.Time) is null) == (reading.MeasuredAt is null),
            "it reads a time that is not there, or none where one is");
    }

    private static double NumberAt(JsonElement top, string pointer) => Find(top, pointer) is not { } value
        ? throw new BrokenPromiseException($"there is nothing at {pointer}")
        : value.ValueKind == JsonValueKind.Number ? value.GetDouble() : double.Parse(value.GetString()!, NumberStyles.Float, CultureInfo.InvariantCulture);

    private static JsonElement? Find(JsonElement top, string pointer)
    {
        JsonElement place = top;
        foreach (string part in pointer.Split('/').Skip(1).Select(p => p.Replace("~1", "/", StringComparison.Ordinal).Replace("~0", "~", StringComparison.Ordinal)))
        {
            bool isThere = place.ValueKind switch
            {
                JsonValueKind.Object => place.TryGetProperty(part, out place),
                JsonValueKind.Array when int.TryParse(part, NumberStyles.None, CultureInfo.InvariantCulture, out int index) && index < place.GetArrayLength() =>
                    (place = place[index]).ValueKind != JsonValueKind.Undefined,
                _ => false,
            };
            if (!isThere)
            {
                return null;
            }
        }

        return place;
    }
}
