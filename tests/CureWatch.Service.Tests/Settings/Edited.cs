using System.Text.Json.Nodes;

namespace CureWatch.Service.Tests.Settings;

/// <summary>A JSON document with one place changed.</summary>
internal static class Edited
{
    /// <param name="document">A JSON document.</param>
    /// <param name="pointer">A JSON Pointer without escapes; a last part <c>-</c> appends to an array.</param>
    /// <param name="json">The new value; null takes the place away.</param>
    public static string At(string document, string pointer, string? json)
    {
        JsonNode top = JsonNode.Parse(document)!;
        string[] parts = pointer.Split('/')[1..];
        JsonNode parent = parts[..^1].Aggregate(top, (node, part) => node is JsonArray array ? array[int.Parse(part)]! : node[part]!);
        Change(parent, parts[^1], json is null ? null : JsonNode.Parse(json), remove: json is null);
        return top.ToJsonString();
    }

    private static void Change(JsonNode parent, string key, JsonNode? value, bool remove)
    {
        switch (parent)
        {
            case JsonArray array when key == "-":
                array.Add(value);
                break;
            case JsonArray array when remove:
                array.RemoveAt(int.Parse(key));
                break;
            case JsonArray array:
                array[int.Parse(key)] = value;
                break;
            case JsonObject item when remove:
                Assert.True(item.Remove(key));
                break;
            default:
                parent[key] = value;
                break;
        }
    }
}
