using System.Buffers;
using System.Globalization;
using System.Text.Json;
using System.Text.RegularExpressions;

namespace CureWatch.Service.Settings;

/// <summary>
/// <c>curewatch.json</c> with the environment laid over it. A variable's text becomes the JSON value that its key wants, where it can be
/// one; where not, it stays text, and the reader refuses it in its usual words.
/// </summary>
internal sealed partial class ServiceMerge
{
    private readonly Utf8JsonWriter _json;
    private readonly Faults _faults;

    private ServiceMerge(Utf8JsonWriter json, Faults faults) => (_json, _faults) = (json, faults);

    /// <param name="file">The file, as the person named it; null where there is none.</param>
    /// <param name="document">What the file holds; undefined where there is no file.</param>
    /// <param name="overlay">What the environment says.</param>
    /// <param name="faults">Where faults are kept.</param>
    /// <returns>The top of both together.</returns>
    public static JsonCursor Of(string? file, JsonElement document, ServiceOverlay overlay, Faults faults)
    {
        var origin = new CursorOrigin(pointer => WhereIs(pointer, file, overlay), faults, HoldsSecrets: true);
        if (document.ValueKind == JsonValueKind.Null)
        {
            return JsonCursor.At(origin, document); // a file that says nothing at all is no file of ours, whatever a variable says
        }

        var bytes = new ArrayBufferWriter<byte>();
        using (var json = new Utf8JsonWriter(bytes))
        {
            new ServiceMerge(json, faults).Write(document, overlay);
        }

        return JsonCursor.At(origin, JsonElement.Parse(bytes.WrittenSpan));
    }

    private static SettingPlace WhereIs(string pointer, string? file, ServiceOverlay overlay)
    {
        string[] keys = pointer.Split('/')[1..];
        ServiceOverlay at = overlay;
        foreach (string key in keys)
        {
            if (!at.Below.TryGetValue(key, out ServiceOverlay? below))
            {
                break;
            }

            at = below;
        }

        return at.Variable is { } variable ? new SettingPlace(ServiceVariable.File, variable.Name)
            : at.IsNew || file is null ? new SettingPlace(ServiceVariable.File, ServiceVariable.NameOf(keys))
            : new SettingPlace(file, pointer);
    }

    private void Write(JsonElement written, ServiceOverlay overlay)
    {
        overlay.IsNew = written.ValueKind is JsonValueKind.Undefined or JsonValueKind.Null;
        switch (overlay.Keys)
        {
            case ServiceKeys.Section when overlay.IsNew || written.ValueKind == JsonValueKind.Object:
                WriteObject(written, overlay);
                break;
            case ServiceKeys.Entries when overlay.IsNew || written.ValueKind == JsonValueKind.Array:
                WriteArray(written, overlay);
                break;
            case ServiceKeys.Section or ServiceKeys.Entries:
                written.WriteTo(_json);   // no place for what the variables say: the reader refuses the file
                break;
            default:
                WriteValue(written, overlay);
                break;
        }
    }

    private void WriteObject(JsonElement written, ServiceOverlay overlay)
    {
        var here = new HashSet<string>(StringComparer.Ordinal);
        _json.WriteStartObject();
        foreach (JsonProperty property in overlay.IsNew ? default : written.EnumerateObject())
        {
            _json.WritePropertyName(property.Name);
            if (!here.Add(property.Name))
            {
                overlay.Forget(property.Name);   // a key said twice is the file's fault, whatever a variable says
            }

            if (overlay.Below.TryGetValue(property.Name, out ServiceOverlay? below))
            {
                Write(property.Value, below);
            }
            else
            {
                property.Value.WriteTo(_json);
            }
        }

        foreach ((string key, ServiceOverlay below) in overlay.Below.Where(b => !here.Contains(b.Key)))
        {
            _json.WritePropertyName(key);
            Write(default, below);
        }

        _json.WriteEndObject();
    }

    private void WriteArray(JsonElement written, ServiceOverlay overlay)
    {
        int length = 0;
        _json.WriteStartArray();
        foreach (JsonElement item in overlay.IsNew ? default : written.EnumerateArray())
        {
            if (overlay.Below.TryGetValue(length.ToString(CultureInfo.InvariantCulture), out ServiceOverlay? below))
            {
                Write(item, below);
            }
            else
            {
                item.WriteTo(_json);
            }

            length++;
        }

        foreach ((string index, ServiceOverlay below) in overlay.Below)
        {
            int entry = int.Parse(index, CultureInfo.InvariantCulture);
            if (entry == length)
            {
                Write(default, below);
                length++;
            }
            else if (entry > length)
            {
                _faults.Add(ServiceVariable.File, FirstIn(below).Name, $"entry {entry}", $"entry {length} before it: entries count from 0");
            }
        }

        _json.WriteEndArray();
    }

    private static ServiceVariable FirstIn(ServiceOverlay overlay) => overlay.Variable ?? FirstIn(overlay.Below.Values.First());

    private void WriteValue(JsonElement written, ServiceOverlay overlay)
    {
        if (overlay.Variable?.Value is not { } text)
        {
            written.WriteTo(_json);
        }
        else if (overlay.Keys is ServiceKeys.Number && JsonNumber().IsMatch(text))
        {
            _json.WriteRawValue(text);
        }
        else if (overlay.Keys is ServiceKeys.Flag && bool.TryParse(text, out bool flag))
        {
            _json.WriteBooleanValue(flag);
        }
        else
        {
            _json.WriteStringValue(text);
        }
    }

    /// <summary>The grammar of a number in RFC 8259: no culture has a say in it.</summary>
    [GeneratedRegex(@"\A-?(0|[1-9][0-9]*)(\.[0-9]+)?([eE][+-]?[0-9]+)?\z")]
    private static partial Regex JsonNumber();
}
