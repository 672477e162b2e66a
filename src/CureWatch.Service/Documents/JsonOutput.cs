using System.Buffers;
using System.Globalization;
using System.Text;
using System.Text.Json;
using CureWatch.Service.Settings;
using CureWatch.TimeWindows;
using CureWatch.Words;

namespace CureWatch.Service.Documents;

/// <summary>How everything here writes JSON: one document, numbers no finer than anybody measures, instants in UTC.</summary>
internal static class JsonOutput
{
    private const int Decimals = 4;

    /// <summary>Writes one document and a newline.</summary>
    public static void WriteDocument(TextWriter output, Action<Utf8JsonWriter> write)
    {
        var bytes = new ArrayBufferWriter<byte>();
        using (var json = new Utf8JsonWriter(bytes))
        {
            write(json);
        }

        output.Write(Encoding.UTF8.GetString(bytes.WrittenSpan));
        output.Write('\n');
    }

    /// <summary>Writes a number to four decimals, far finer than any probe, and null where there is none.</summary>
    public static void WriteRounded(this Utf8JsonWriter json, string name, double? number)
    {
        if (number is { } known)
        {
            json.WriteNumber(name, Math.Round(known, Decimals) + 0.0); // + 0.0 turns -0 into 0
        }
        else
        {
            json.WriteNull(name);
        }
    }

    /// <summary>Writes a number to six significant digits, for hours that may be seconds or weeks.</summary>
    public static void WriteSignificant(this Utf8JsonWriter json, string name, double number) =>
        json.WriteNumber(name, double.Parse(number.ToString("G6", CultureInfo.InvariantCulture), CultureInfo.InvariantCulture));

    /// <summary>Writes an instant in UTC to the millisecond, and null where there is none.</summary>
    public static void WriteInstant(this Utf8JsonWriter json, string name, DateTimeOffset? instant) =>
        json.WriteString(name, instant is { } at ? UtcText.Of(at) : null);

    /// <summary>Writes a whole number, and null where there is none.</summary>
    public static void WriteWhole(this Utf8JsonWriter json, string name, long? number)
    {
        if (number is { } known)
        {
            json.WriteNumber(name, known);
        }
        else
        {
            json.WriteNull(name);
        }
    }

    /// <summary>Writes a list of objects.</summary>
    public static void WriteArray<T>(this Utf8JsonWriter json, string name, IEnumerable<T> items, Action<T> write)
    {
        json.WriteStartArray(name);
        foreach (T item in items)
        {
            json.WriteStartObject();
            write(item);
            json.WriteEndObject();
        }

        json.WriteEndArray();
    }

    /// <summary>Writes bounds, and null where there are none.</summary>
    public static void WriteBounds(this Utf8JsonWriter json, string name, TimeBounds? instants)
    {
        if (instants is null)
        {
            json.WriteNull(name);
            return;
        }

        json.WriteStartObject(name);
        json.WriteInstant("earliest", instants.Earliest);
        json.WriteInstant("likely", instants.Likely);
        json.WriteInstant("latest", instants.Latest);
        json.WriteEndObject();
    }

    /// <summary>Writes a sentence, in English and °C whoever asks, and null where there is none.</summary>
    public static void WriteString(this Utf8JsonWriter json, string name, Sentence? sentence) => json.WriteString(name, sentence?.ToString());

    /// <summary>Writes a list of sentences, each on one line.</summary>
    public static void WriteTexts(this Utf8JsonWriter json, string name, IEnumerable<Sentence> sentences) => json.WriteTexts(name, sentences.Select(s => s.ToString()));

    /// <summary>Writes a list of texts, each on one line.</summary>
    public static void WriteTexts(this Utf8JsonWriter json, string name, IEnumerable<string> texts)
    {
        json.WriteStartArray(name);
        foreach (string text in texts)
        {
            json.WriteStringValue(text.ReplaceLineEndings(" "));
        }

        json.WriteEndArray();
    }
}
