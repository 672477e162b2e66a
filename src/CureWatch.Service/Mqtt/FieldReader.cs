using System.Text.Json;

namespace CureWatch.Service.Mqtt;

/// <summary>Finds a few places of a JSON document in one pass over its bytes.</summary>
/// <remarks>
/// A key that leads to a wanted place stands only once, and a wanted place holds a number or a string; anything else makes the document
/// unusable. What leads nowhere is skipped, but still has to be JSON.
/// </remarks>
internal ref struct FieldReader(ReadOnlySpan<JsonPointer?> pointers, Span<FieldValue> values)
{
    private readonly ReadOnlySpan<JsonPointer?> _pointers = pointers;
    private readonly Span<FieldValue> _values = values;

    /// <summary>Reads a document.</summary>
    /// <param name="json">The document, valid UTF-8.</param>
    /// <returns>False where it cannot be used.</returns>
    /// <exception cref="JsonException">The bytes are no JSON document, or too deep.</exception>
    public readonly bool Read(ReadOnlySpan<byte> json)
    {
        _values.Clear();
        var reader = new Utf8JsonReader(json);
        return reader.Read() && Visit(ref reader, 0, (1 << _pointers.Length) - 1) && !reader.Read();
    }

    /// <param name="reader">Stands on the first token of a value.</param>
    /// <param name="level">How many parts of a pointer led here.</param>
    /// <param name="alive">The pointers that led here, one bit each.</param>
    private readonly bool Visit(ref Utf8JsonReader reader, int level, int alive)
    {
        for (int i = 0; i < _pointers.Length; i++)
        {
            if ((alive & (1 << i)) == 0)
            {
                continue;
            }

            if (_pointers[i] is not { } pointer)
            {
                alive &= ~(1 << i);
            }
            else if (pointer.Length == level)
            {
                if (!Take(ref reader, i))
                {
                    return false;
                }

                alive &= ~(1 << i);
            }
        }

        switch (reader.TokenType)
        {
            case JsonTokenType.StartObject when alive != 0:
                return VisitObject(ref reader, level, alive);
            case JsonTokenType.StartArray when alive != 0:
                return VisitArray(ref reader, level, alive);
            default:
                reader.Skip();
                return true;
        }
    }

    private readonly bool VisitObject(ref Utf8JsonReader reader, int level, int alive)
    {
        int seen = 0;
        while (reader.Read() && reader.TokenType == JsonTokenType.PropertyName)
        {
            int next = 0;
            for (int i = 0; i < _pointers.Length; i++)
            {
                next |= (alive & (1 << i)) != 0 && reader.ValueTextEquals(_pointers[i]!.Key(level)) ? 1 << i : 0;
            }

            if ((next & seen) != 0 || !reader.Read() || !Visit(ref reader, level + 1, next))
            {
                return false;
            }

            seen |= next;
        }

        return true;
    }

    private readonly bool VisitArray(ref Utf8JsonReader reader, int level, int alive)
    {
        for (int index = 0; reader.Read() && reader.TokenType != JsonTokenType.EndArray; index++)
        {
            int next = 0;
            for (int i = 0; i < _pointers.Length; i++)
            {
                next |= (alive & (1 << i)) != 0 && _pointers[i]!.Index(level) == index ? 1 << i : 0;
            }

            if (!Visit(ref reader, level + 1, next))
            {
                return false;
            }
        }

        return true;
    }

    private readonly bool Take(ref Utf8JsonReader reader, int pointer)
    {
        ref FieldValue value = ref _values[pointer];
        switch (reader.TokenType)
        {
            case JsonTokenType.Number when reader.TryGetDouble(out double number) && double.IsFinite(number):
                value = FieldValue.OfNumber(number);
                return true;
            case JsonTokenType.String when reader.ValueSpan.Length <= FieldValue.LongestText:
                Span<byte> text = stackalloc byte[FieldValue.LongestText];
                return FieldValue.TryOfText(text[..reader.CopyString(text)], out value);
            default:
                return false;
        }
    }
}
