using System.Collections.Immutable;
using System.Text.Json;
using System.Text.Unicode;
using CureWatch.Readings;
using CureWatch.Service.Journal;
using CureWatch.Service.Settings;
using CureWatch.Units;

namespace CureWatch.Service.Mqtt;

/// <summary>Makes a reading of a probe's messages. Whether anybody believes it is judged later.</summary>
internal sealed class ReadingDecoder
{
    private const int Temperature = 0, Humidity = 1, Time = 2, Sequence = 3, Fields = 4;

    /// <summary>The largest whole number that a JSON number holds for every reader (RFC 8259, section 6).</summary>
    private const double LargestSequence = (1L << 53) - 1;


    private static readonly JsonPointer WholeDocument = new("");

    private readonly ProbeWiring _wiring;
    private readonly bool _isPanel;
    private readonly ImmutableArray<JsonPointer?> _pointers;

    public ReadingDecoder(ProbeWiring wiring, Measures measures)
    {
        _wiring = wiring;
        _isPanel = measures == Measures.Panel;
        Place = $"{wiring.Bay}/{wiring.Probe}";
        ProbeFields fields = wiring.Fields ?? new ProbeFields("/temperatureC", "/humidityPct", "/at", "/sequence");
        _pointers =
        [
            new JsonPointer(fields.Temperature),
            !_isPanel && fields.Humidity is { } humidity ? new JsonPointer(humidity) : null,
            fields.Time is { } time ? new JsonPointer(time) : null,
            fields.Sequence is { } sequence ? new JsonPointer(sequence) : null,
        ];
    }

    public string Bay => _wiring.Bay;

    public string Probe => _wiring.Probe;

    /// <summary>The probe as <c>bay/probe</c>.</summary>
    public string Place { get; }

    /// <summary>Decodes a message.</summary>
    /// <param name="payload">The message's bytes.</param>
    /// <param name="isRetained">Whether a broker kept it, for nobody knows how long.</param>
    public Decoded Decode(ReadOnlySpan<byte> payload, bool isRetained)
    {
        Span<FieldValue> values = stackalloc FieldValue[Fields];
        bool isMapped = _wiring.Fields is not null;
        bool isBare = !isMapped && _isPanel && IsNumber(payload);
        if (!TryRead(payload, isBare ? [WholeDocument, null, null, null] : _pointers.AsSpan(), values))
        {
            return default;
        }

        Entry.Reading? reading = Reading(values, isMapped, hasUnit: isMapped || isBare);
        return reading is null ? new Decoded(null, Disbelief.Malformed, values[Temperature].IsAbsent && values[Humidity].IsAbsent)
            : isRetained && reading.MeasuredAt is null ? new Decoded(null, Disbelief.RetainedWithoutTime, SaysNothing: false)
            : new Decoded(reading, default, SaysNothing: false);
    }

    private static bool TryRead(ReadOnlySpan<byte> payload, ReadOnlySpan<JsonPointer?> pointers, Span<FieldValue> values)
    {
        try
        {
            return Utf8.IsValid(payload) && new FieldReader(pointers, values).Read(payload);
        }
        catch (Exception e) when (e is JsonException or InvalidOperationException)
        {
            // The reader throws the one on broken JSON, the other on half of a surrogate pair written as an escape.
            return false;
        }
    }

    private Entry.Reading? Reading(ReadOnlySpan<FieldValue> values, bool isMapped, bool hasUnit)
    {
        double? temperature = values[Temperature].Number(alsoAsText: isMapped);
        double? humidityPct = values[Humidity].Number(alsoAsText: isMapped);
        DateTimeOffset? at = values[Time].Instant(alsoUnix: isMapped);
        double? number = values[Sequence].Number(alsoAsText: isMapped);
        bool isNumbered = number is >= 0 and <= LargestSequence && Math.Floor(number.Value) == number;
        if (temperature is null || (humidityPct is null && !_isPanel) || (at is null && !values[Time].IsAbsent)
            || (!isNumbered && !values[Sequence].IsAbsent))
        {
            return null;
        }

        double celsius = hasUnit && _wiring.Unit == TemperatureUnit.Fahrenheit
            ? Fahrenheit.ToCelsius(temperature.Value)
            : temperature.Value;
        long? sequence = isNumbered ? (long)number!.Value : null;
        return _isPanel
            ? new Entry.Reading(Bay, Probe, at, null, null, celsius, sequence)
            : new Entry.Reading(Bay, Probe, at, celsius, humidityPct, null, sequence);
    }

    private static bool IsNumber(ReadOnlySpan<byte> payload)
    {
        ReadOnlySpan<byte> text = payload.TrimStart(" \t\r\n"u8);
        return !text.IsEmpty && text[0] is (byte)'-' or (>= (byte)'0' and <= (byte)'9');
    }
}
