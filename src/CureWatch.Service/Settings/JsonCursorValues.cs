using System.Collections.Immutable;
using System.Globalization;
using System.Text.Json;
using CureWatch.Words;

namespace CureWatch.Service.Settings;

/// <summary>The values a place can hold. Each reader gives null and adds a fault where the place holds something else.</summary>
internal sealed partial class JsonCursor
{
    /// <summary>A JSON number, finite, inside the range.</summary>
    public double? Number(NumberRange range)
    {
        if (IsAbsent)
        {
            return null;
        }

        if (_element.ValueKind == JsonValueKind.Number && _element.TryGetDouble(out double value) && range.Holds(value))
        {
            return value;
        }

        Refuse(range.Words);
        return null;
    }

    /// <summary>A JSON number without a fractional part.</summary>
    /// <param name="min">The least.</param>
    /// <param name="max">The most.</param>
    /// <param name="allowed">What is allowed, in words; left out, those two.</param>
    public int? Integer(int min, int max, Sentence? allowed = null)
    {
        if (IsAbsent)
        {
            return null;
        }

        if (_element.ValueKind == JsonValueKind.Number && _element.TryGetDouble(out double value)
            && value >= min && value <= max && value == Math.Truncate(value))
        {
            return (int)value;
        }

        Refuse(allowed ?? $"a whole number {min} to {max}");
        return null;
    }

    /// <summary>A JSON number without a fraction or an exponent, as this program writes the numbers of entries and bytes.</summary>
    public long? Whole(long min, long max)
    {
        if (IsAbsent)
        {
            return null;
        }

        if (_element.ValueKind == JsonValueKind.Number && _element.TryGetInt64(out long value) && value >= min && value <= max)
        {
            return value;
        }

        Refuse($"a whole number {min.ToString(CultureInfo.InvariantCulture)} to {max.ToString(CultureInfo.InvariantCulture)}");
        return null;
    }

    /// <summary><c>true</c> or <c>false</c>.</summary>
    public bool? Flag()
    {
        if (IsAbsent)
        {
            return null;
        }

        if (_element.ValueKind is JsonValueKind.True or JsonValueKind.False)
        {
            return _element.GetBoolean();
        }

        Refuse("true or false");
        return null;
    }

    /// <summary>Text nobody may see again, in no fault either.</summary>
    public string? Secret(int longest)
    {
        if (IsAbsent)
        {
            return null;
        }

        string? text = _element.ValueKind == JsonValueKind.String ? _element.GetString() : null;
        if (text?.Length > 0 && text.Length <= longest && !text.Any(char.IsControl))
        {
            return text;
        }

        Refuse("something not shown here", $"text of 1 to {longest} characters on one line");
        return null;
    }

    /// <summary>Words for people: one line, not blank.</summary>
    public string? Text(int longest) => String(
        text => !string.IsNullOrWhiteSpace(text) && text.Length <= longest && !text.Any(char.IsControl),
        $"text of 1 to {longest} characters on one line");

    public string? Id() => String(Ids.Allows, Ids.Allowed);

    public TimeSpan? Duration(TimeSpan min, TimeSpan max)
    {
        Sentence allowed = $"a duration {Durations.Form}, {min:c} to {max:c}";
        return String(allowed) is not { } text ? null
            : Durations.Find(text) is { } duration && duration >= min && duration <= max ? duration
            : Refused<TimeSpan>(allowed);
    }

    public DateTimeOffset? Instant() =>
        String(Sentence.Word(Instants.Allowed)) is not { } text ? null
        : Instants.TryParse(text, out DateTimeOffset instant) ? instant
        : Refused<DateTimeOffset>(Sentence.Word(Instants.Allowed));

    public T? OneOf<T>()
        where T : struct, Enum =>
        String(Sentence.Named(WireName<T>.All)) is not { } text ? null : WireName<T>.Find(text) ?? Refused<T>(Sentence.Named(WireName<T>.All));

    /// <summary>A list of names, each at most once.</summary>
    public ImmutableArray<T> Each<T>(int least = 0)
        where T : struct, Enum
    {
        var values = ImmutableArray.CreateBuilder<T>();
        foreach (JsonCursor item in Items(least))
        {
            if (item.OneOf<T>() is not { } value)
            {
                continue;
            }

            if (values.Contains(value))
            {
                item.Refuse("each name once");
            }

            values.Add(value);
        }

        return values.ToImmutable();
    }

    /// <summary>A string that passes a test.</summary>
    public string? String(Predicate<string> passes, string allowed) => String(passes, Sentence.Word(allowed));

    /// <summary>A string that passes a test.</summary>
    public string? String(Predicate<string> passes, Sentence allowed)
    {
        string? text = String(allowed);
        if (text is null || passes(text))
        {
            return text;
        }

        Refuse(allowed);
        return null;
    }

    private string? String(Sentence allowed)
    {
        if (IsAbsent)
        {
            return null;
        }

        if (_element.ValueKind == JsonValueKind.String)
        {
            return _element.GetString();
        }

        Refuse(allowed);
        return null;
    }

    private T? Refused<T>(Sentence allowed)
        where T : struct
    {
        Refuse(allowed);
        return null;
    }
}
