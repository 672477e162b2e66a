using System.Text.Json;
using CureWatch.Words;

namespace CureWatch.Service.Settings;

/// <summary>
/// A place in a JSON document that a person wrote, read into types while every fault is kept. A place that is absent answers null
/// and adds no fault: what is required is said once, by <see cref="Keys"/>.
/// </summary>
internal sealed partial class JsonCursor
{
    private const string SchemaKey = "$schema";

    /// <summary>A key that is wrong more often than this is a file of another kind: the rest of its object is counted, not told. Source (choice).</summary>
    private const int MostKeysTold = 100;

    private readonly CursorOrigin _origin;
    private readonly string _pointer;
    private readonly JsonElement _element;

    private JsonCursor(CursorOrigin origin, string pointer, JsonElement element) =>
        (_origin, _pointer, _element) = (origin, pointer, element);

    public bool IsAbsent => _element.ValueKind == JsonValueKind.Undefined;

    public bool IsObject => _element.ValueKind == JsonValueKind.Object;

    /// <summary>Where a person finds this place again.</summary>
    public SettingPlace Where => _origin.Of(_pointer);

    /// <summary>This place, and nothing where it says null: for what is off unless somebody turns it on.</summary>
    public JsonCursor OrNothing => _element.ValueKind == JsonValueKind.Null ? new JsonCursor(_origin, _pointer, default) : this;

    private string Kind => _element.ValueKind switch
    {
        JsonValueKind.Object => "an object",
        JsonValueKind.Array => "an array",
        JsonValueKind.String => "text",
        JsonValueKind.Number => "a number",
        JsonValueKind.Null => "null",
        _ => "true or false",
    };

    /// <summary>The value of a key; absent where the key, or the object, is.</summary>
    public JsonCursor this[string key] => new(
        _origin,
        PointerTo(key),
        IsObject && _element.TryGetProperty(key, out JsonElement value) ? value : default);

    /// <summary>Starts at the top of a document.</summary>
    public static JsonCursor At(string file, JsonElement top, Faults faults) =>
        At(new CursorOrigin(pointer => new SettingPlace(file, pointer), faults, HoldsSecrets: false), top);

    /// <summary>Starts at the top of a document whose places are named in a way of its own.</summary>
    public static JsonCursor At(CursorOrigin origin, JsonElement top) => new(origin, "", top);

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
            RefuseShape("an object");
            return false;
        }

        string[] known = [.. required.Union(optional, StringComparer.Ordinal)];
        var seen = new HashSet<string>(StringComparer.Ordinal);
        int wrong = 0;
        foreach (JsonProperty property in _element.EnumerateObject())
        {
            bool schema = _pointer.Length == 0 && property.Name == SchemaKey && property.Value.ValueKind == JsonValueKind.String;
            bool isKnown = schema || known.Contains(property.Name);
            if ((!isKnown || !seen.Add(property.Name)) && ++wrong <= MostKeysTold)
            {
                new JsonCursor(_origin, PointerTo(property.Name), property.Value).Refuse(
                    $"the key {property.Name}{(isKnown ? " again" : "")}", isKnown ? (Sentence)$"each key once" : $"the keys {string.Join(", ", known)}");
            }
        }

        if (wrong > MostKeysTold)
        {
            Refuse($"{wrong - MostKeysTold} more such keys", "as above");
        }

        foreach (string key in required.Where(k => !seen.Contains(k)))
        {
            this[key].Refuse("nothing", $"the key {key}, which is required");
        }

        return true;
    }

    /// <summary>The places of an array, in order.</summary>
    /// <param name="least">Fewer places are a fault.</param>
    /// <param name="most">More places are a fault, and those are not answered: a fault each would bury it.</param>
    public IReadOnlyList<JsonCursor> Items(int least = 0, int most = int.MaxValue)
    {
        if (IsAbsent)
        {
            return [];
        }

        if (_element.ValueKind != JsonValueKind.Array)
        {
            RefuseShape("an array");
            return [];
        }

        int length = _element.GetArrayLength();
        if (length < least || length > most)
        {
            Refuse($"{length}", most == int.MaxValue ? (Sentence)$"at least {least} entries" : $"{least} to {most} entries");
        }

        return [.. _element.EnumerateArray().Take(most).Select((item, i) => new JsonCursor(_origin, $"{_pointer}/{i}", item))];
    }

    /// <summary>Refuses what stands here.</summary>
    public void Refuse(string allowed) => Refuse(Sentence.Word(allowed));

    /// <summary>Refuses what stands here.</summary>
    public void Refuse(Sentence allowed)
    {
        bool mayHoldSecret = _origin.HoldsSecrets && _element.ValueKind is JsonValueKind.Object or JsonValueKind.Array;
        Refuse(IsAbsent ? "nothing" : mayHoldSecret ? Kind : _element.GetRawText(), allowed);
    }

    /// <summary>Refuses what stands here, in words of its own.</summary>
    public void Refuse(string seen, string allowed) => Refuse(seen, Sentence.Word(allowed));

    /// <summary>Refuses what stands here, in words of its own.</summary>
    public void Refuse(string seen, Sentence allowed) => _origin.Faults.Add(Fault.Of(Where, seen, allowed));

    /// <summary>Where an object or an array belongs, even a plain text may be a secret in the wrong place.</summary>
    private void RefuseShape(string allowed) => Refuse(_origin.HoldsSecrets ? Kind : _element.GetRawText(), allowed);

    private string PointerTo(string key) => $"{_pointer}/{Escaped(key)}";

    private static string Escaped(string key) =>
        key.Replace("~", "~0", StringComparison.Ordinal).Replace("/", "~1", StringComparison.Ordinal);
}
