using System.Text;
using System.Text.Json;

namespace CureWatch.Service.Settings;

/// <summary>A JSON file that a person wrote.</summary>
internal static class JsonFile
{
    private const string Allowed = "one JSON document in UTF-8, without comments or trailing commas";
    private static readonly UTF8Encoding Strict = new(encoderShouldEmitUTF8Identifier: false, throwOnInvalidBytes: true);

    /// <returns>The top of the document, or null where there is none to read.</returns>
    public static JsonCursor? Open(string path, Faults faults) => Load(path, faults) is { } top ? JsonCursor.At(path, top, faults) : null;

    /// <returns>The document, or null where there is none to read.</returns>
    public static JsonElement? Load(string path, Faults faults)
    {
        try
        {
            return Element(path, File.ReadAllBytes(path), faults);
        }
        catch (Exception e) when (e is IOException or UnauthorizedAccessException or ArgumentException)
        {
            faults.Add(Unreadable.At(path, e));
            return null;
        }
    }

    /// <summary>Reads a document that is already here; a byte order mark is skipped.</summary>
    public static JsonCursor? Parse(string file, ReadOnlySpan<byte> utf8, Faults faults) =>
        Element(file, utf8, faults) is { } top ? JsonCursor.At(file, top, faults) : null;

    private static JsonElement? Element(string file, ReadOnlySpan<byte> utf8, Faults faults)
    {
        ReadOnlySpan<byte> body = utf8.StartsWith(Encoding.UTF8.Preamble) ? utf8[Encoding.UTF8.Preamble.Length..] : utf8;
        var reader = new Utf8JsonReader(body);
        try
        {
            Strict.GetCharCount(body);
            while (reader.Read())
            {
                _ = reader.TokenType is JsonTokenType.String or JsonTokenType.PropertyName ? reader.GetString() : null;
            }

            return JsonElement.Parse(body);
        }
        catch (JsonException e)
        {
            faults.Add(file, $"line {e.LineNumber + 1}", body.Trim(" \t\r\n"u8).IsEmpty ? "" : Sentence(e), Allowed);
        }
        catch (DecoderFallbackException e)
        {
            faults.Add(file, Line(body[..e.Index]), "bytes that are no UTF-8", Allowed);
        }
        catch (InvalidOperationException)
        {
            faults.Add(file, Line(body[..(int)reader.BytesConsumed]), "half of a surrogate pair", Allowed);
        }

        return null;
    }

    private static string Line(ReadOnlySpan<byte> before) => $"line {before.Count((byte)'\n') + 1}";

    /// <summary>The parser's message without the position it appends, which counts from zero.</summary>
    private static string Sentence(JsonException e)
    {
        int position = e.Message.IndexOf(" LineNumber:", StringComparison.Ordinal);
        return position < 0 ? e.Message : e.Message[..position];
    }
}
