using System.Text.Json;

namespace CureWatch.Service.Settings;

/// <summary>
/// A place in a JSON document that a person wrote, read into types while every fault is kept. A place that is absent answers null
/// and adds no fault: what is required is said once, by <see cref="Keys"/>.
/// </summary>
internal sealed partial class JsonCursor
{
    private const string SchemaKey = "$schema";

    private readonly string _file;
    private readonly string _pointer;
    private readonly JsonElement _element;
    private readonly Faults _faults;

    private JsonCursor(string file, string pointer, JsonElement element, Faults faults) =>
        (_file, _pointer, _element, _faults) = (file, pointer, element, faults);

    public bool IsAbsent => _element.ValueKind == JsonValueKind.Undefined;

    public bool IsObject => _element.ValueKind == JsonValueKind.Object;

    /// <summary>The value of a key; absent where the key, or the object, is.</summary>
    public JsonCursor this[string key] => new(
        _file,
        $"{_pointer}/{Escaped(key)}",
        IsObject && _element.TryGetProperty(key, out JsonElement value) ? value : default,
        _faults);

    /// <summary>Starts at the top of a document.</summary>
    public static JsonCursor At(string file, JsonElement top, Faults faults) => new(file, "", top, faults);

    /// <summary>Says which keys an object may have, and refuses missing, unknown and repeated ones.</summary>
    /// <returns>Whether there is an object to go on with.</returns>
    public bool Keys(string[] required, params string[] optional)
    {
        if (IsAbsent)
        {
            return false;
        }

        if (!IsObject)
        {
            Refuse("an object");
            return false;
        }

        string[] known = [.. required.Union(optional, StringComparer.Ordinal)];
        var seen = new HashSet<string>(StringComparer.Ordinal);
        foreach (JsonProperty property in _element.EnumerateObject())
        {
            bool schema = _pointer.Length == 0 && property.Name == SchemaKey && property.Value.ValueKind == JsonValueKind.String;
            if (!schema && !known.Contains(property.Name))
            {
                this[property.Name].Refuse($"the key {property.Name}", $"the keys {string.Join(", ", known)}");
            }
            else if (!seen.Add(property.Name))
            {
                this[property.Name].Refuse($"the key {property.Name} again", "each key once");
            }
        }

        foreach (string key in required.Where(k => !seen.Contains(k)))
        {
            this[key].Refuse("nothing", $"the key {key}, which is required");
        }

        return true;
    }

    /// <summary>The places of an array, in order.</summary>
    /// <param name="least">Fewer places are a fault.</param>
    /// <param name="most">More places are a fault.</param>
    public IReadOnlyList<JsonCursor> Items(int least = 0, int most = int.MaxValue)
    {
        if (IsAbsent)
        {
            return [];
        }

        if (_element.ValueKind != JsonValueKind.Array)
        {
            Refuse("an array");
            return [];
        }

        int length = _element.GetArrayLength();
        if (length < least || length > most)
        {
            Refuse($"{length} entries", most == int.MaxValue ? $"at least {least}" : $"{least} to {most} entries");
        }

        return [.. _element.EnumerateArray().Select((item, i) => new JsonCursor(_file, $"{_pointer}/{i}", item, _faults))];
    }

    /// <summary>Refuses what stands here.</summary>
    public void Refuse(string allowed) => Refuse(IsAbsent ? "nothing" : _element.GetRawText(), allowed);

    /// <summary>Refuses what stands here, in words of its own.</summary>
    public void Refuse(string seen, string allowed) => _faults.Add(_file, _pointer, seen, allowed);

    private static string Escaped(string key) =>
        key.Replace("~", "~0", StringComparison.Ordinal).Replace("/", "~1", StringComparison.Ordinal);
}
