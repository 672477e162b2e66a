using System.Globalization;
using nietras.SeparatedValues;

namespace CureWatch.Service.Settings;

/// <summary>Reads the cells of one row after another, naming every cell that cannot be used.</summary>
internal sealed class ReadingCells(ReadingColumns columns, ReadingsFaults faults)
{
    private const NumberStyles Number = NumberStyles.AllowLeadingSign | NumberStyles.AllowDecimalPoint | NumberStyles.AllowExponent;

    /// <summary>What stands under <see cref="ReadingColumns.ClockName"/> of a probe that has none.</summary>
    public const string NoClock = "none";

    private readonly HashSet<string> _names = new(StringComparer.Ordinal);
    private DateTimeOffset _lastReceivedAt = DateTimeOffset.MinValue;
    private bool _clean;

    /// <returns>False where a cell cannot be used.</returns>
    public bool TryRead(SepReader.Row row, out ReadingRow reading)
    {
        reading = default;
        int line = row.LineNumberFrom;
        if (row.ColCount != columns.Count)
        {
            faults.Add(line, null, $"{row.ColCount} cells", $"{columns.Count} cells, as in the header");
            return false;
        }

        _clean = true;
        reading = new ReadingRow(
            line,
            Instant(row[columns.Time].Span, line, ReadingColumns.TimeName),
            columns.ReceivedAt is { } index ? ReceivedAt(row[index].Span, line) : null,
            Name(row[columns.Bay].Span, line, ReadingColumns.BayName),
            Name(row[columns.Probe].Span, line, ReadingColumns.ProbeName),
            Value(row[columns.AirC].Span, line, ReadingColumns.AirName),
            Value(row[columns.HumidityPct].Span, line, ReadingColumns.HumidityName),
            Value(row[columns.PanelC].Span, line, ReadingColumns.PanelName))
        {
            Sequence = columns.Sequence is { } number ? Sequence(row[number].Span, line) : null,
            HasClock = columns.Clock is not { } clock || HasClock(row[clock].Span, line),
        };
        return _clean;
    }

    private DateTimeOffset Instant(ReadOnlySpan<char> cell, int line, string column)
    {
        if (!Instants.TryParse(cell, out DateTimeOffset instant))
        {
            Refuse(line, column, cell, Instants.Allowed);
        }

        return instant;
    }

    private DateTimeOffset? ReceivedAt(ReadOnlySpan<char> cell, int line)
    {
        if (cell.IsEmpty)
        {
            return null;
        }

        if (!Instants.TryParse(cell, out DateTimeOffset receivedAt))
        {
            Refuse(line, ReadingColumns.ReceivedName, cell, Instants.Allowed);
        }
        else if (receivedAt < _lastReceivedAt)
        {
            Refuse(line, ReadingColumns.ReceivedName, cell, $"{_lastReceivedAt:O} or later: rows are in the order of their arrival");
        }
        else
        {
            _lastReceivedAt = receivedAt;
        }

        return receivedAt;
    }

    private long? Sequence(ReadOnlySpan<char> cell, int line)
    {
        if (cell.IsEmpty)
        {
            return null;
        }

        if (!long.TryParse(cell, NumberStyles.None, CultureInfo.InvariantCulture, out long number))
        {
            Refuse(line, ReadingColumns.SequenceName, cell, "the whole number that the probe gave its reading, or nothing where it counts none");
        }

        return number;
    }

    private bool HasClock(ReadOnlySpan<char> cell, int line)
    {
        bool isNone = cell.SequenceEqual(NoClock);
        if (!isNone && !cell.IsEmpty)
        {
            Refuse(line, ReadingColumns.ClockName, cell, $"{NoClock} where the probe has none and its time is that of its arrival, else nothing");
        }

        return !isNone;
    }

    /// <summary>The same few names come back in every row, so each is kept once.</summary>
    private string Name(ReadOnlySpan<char> cell, int line, string column)
    {
        if (cell.IsEmpty)
        {
            Refuse(line, column, cell, $"the id of a {column}");
            return "";
        }

        HashSet<string>.AlternateLookup<ReadOnlySpan<char>> lookup = _names.GetAlternateLookup<ReadOnlySpan<char>>();
        if (!lookup.TryGetValue(cell, out string? name))
        {
            name = cell.ToString();
            _names.Add(name);
        }

        return name;
    }

    private double? Value(ReadOnlySpan<char> cell, int line, string column)
    {
        if (cell.IsEmpty)
        {
            return null;
        }

        if (!double.TryParse(cell, Number, CultureInfo.InvariantCulture, out double value) || !double.IsFinite(value))
        {
            Refuse(line, column, cell, "a finite number with a decimal point, or nothing where not measured");
        }

        return value;
    }

    private void Refuse(int line, string column, ReadOnlySpan<char> cell, string allowed)
    {
        bool isPadded = !cell.IsEmpty && cell.Trim().Length < cell.Length; // a line of a fault does not show blanks
        faults.Add(line, column, cell, isPadded ? $"{allowed}, without blanks around it" : allowed);
        _clean = false;
    }
}
