using System.Text.Json;
using CureWatch.Service.Tests.Settings;
using Json.Schema;

namespace CureWatch.Service.Tests.Mqtt;

/// <summary>The AsyncAPI document that ships with the service.</summary>
internal static class AsyncApi
{
    private const string Schemas = "#/components/schemas/";

    public static JsonElement Document { get; } = JsonElement.Parse(File.ReadAllText(Path.Combine(Shipped.Folder, "schema", "asyncapi.json")));

    public static IEnumerable<JsonProperty> Channels => Document.GetProperty("channels").EnumerateObject();

    public static IEnumerable<JsonProperty> Messages => Document.GetProperty("components").GetProperty("messages").EnumerateObject();

    public static string Address(string channel) => Document.GetProperty("channels").GetProperty(channel).GetProperty("address").GetString()!;

    public static JsonElement SchemaOf(string message) => Document.GetProperty("components").GetProperty("schemas").GetProperty(message);

    /// <summary>The keys of a message, those of what it is made of after its own.</summary>
    public static IEnumerable<string> KeysOf(string message)
    {
        JsonElement schema = SchemaOf(message);
        IEnumerable<string> parts = schema.TryGetProperty("allOf", out JsonElement all)
            ? all.EnumerateArray().Select(p => p.GetProperty("$ref").GetString()![Schemas.Length..]).SelectMany(KeysOf)
            : [];
        return schema.GetProperty("properties").EnumerateObject().Select(p => p.Name).Concat(parts);
    }

    /// <summary>Whether a payload is what the document says of a message.</summary>
    public static bool Accepts(string message, JsonElement payload)
    {
        string schemas = Document.GetProperty("components").GetProperty("schemas").GetRawText().Replace(Schemas, "#/$defs/", StringComparison.Ordinal);
        return JsonSchema.FromText($$"""{"$defs":{{schemas}},"$ref":"#/$defs/{{message}}"}""").Evaluate(payload).IsValid;
    }

    /// <summary>Every reference in the document.</summary>
    public static IEnumerable<string> References() => Strings(Document).Where(s => s.Key == "$ref").Select(s => s.Value);

    public static bool Finds(string reference) =>
        reference.Split('/')[1..].Aggregate((JsonElement?)Document, (place, part) => place is { } p && p.TryGetProperty(part, out JsonElement next) ? next : null) is not null;

    private static IEnumerable<(string Key, string Value)> Strings(JsonElement place) => place.ValueKind switch
    {
        JsonValueKind.Object => place.EnumerateObject().SelectMany(p => p.Value.ValueKind == JsonValueKind.String ? [(p.Name, p.Value.GetString()!)] : Strings(p.Value)),
        JsonValueKind.Array => place.EnumerateArray().SelectMany(Strings),
        _ => [],
    };
}
