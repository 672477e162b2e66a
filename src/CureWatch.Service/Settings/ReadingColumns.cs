using nietras.SeparatedValues;

namespace CureWatch.Service.Settings;

/// <summary>Which column of a readings file holds what.</summary>
internal sealed record ReadingColumns(
    int Count, int Time, int Bay, int Probe, int AirC, int HumidityPct, int PanelC, int? ReceivedAt, int? Sequence, int? Clock)
{
    public const string TimeName = "time";
    public const string BayName = "bay";
    public const string ProbeName = "probe";
    public const string AirName = "air_c";
    public const string HumidityName = "humidity_pct";
    public const string PanelName = "panel_c";
    public const string ReceivedName = "received_at";
    public const string SequenceName = "sequence";
    public const string ClockName = "clock";

    /// <summary>Said here because Sep 0.17.1 numbers a first row that it does not know for a header by the line after it.</summary>
    private const int HeaderLine = 1;

    private static readonly string[] Required = [TimeName, BayName, ProbeName, AirName, HumidityName, PanelName];
    private static readonly string[] Optional = [ReceivedName, SequenceName, ClockName];

    private static readonly string Allowed =
        $"the columns {string.Join(',', Required)} and, where wanted, {string.Join(',', Optional)}, by comma; temperatures in °C, times with their offset";

    /// <returns>The columns, or null where the header holds a fault.</returns>
    public static ReadingColumns? Read(SepReader.Row header, ReadingsFaults faults)
    {
        string[] names = header.ColCount == 0 ? [] : header[..].ToStringsArray();
        if (!names.Any(IsKnown))
        {
            faults.Add(HeaderLine, null, header.Span, $"a header of {Allowed}");
            return null;
        }

        var at = new Dictionary<string, int>(StringComparer.Ordinal);
        bool whole = true;
        for (int i = 0; i < names.Length; i++)
        {
            if (!IsKnown(names[i]))
            {
                faults.Add(HeaderLine, null, names[i], Allowed);
                whole = false;
            }
            else if (!at.TryAdd(names[i], i))
            {
                faults.Add(HeaderLine, names[i], names[i], "each column once");
                whole = false;
            }
        }

        // A column under another name is one fault, and not also one that is missing.
        foreach (string name in names.All(IsKnown) ? Required.Where(n => !at.ContainsKey(n)) : [])
        {
            faults.Add(HeaderLine, name, "", $"the column {name}, which is required");
            whole = false;
        }

        return !whole ? null : new ReadingColumns(
            header.ColCount, at[TimeName], at[BayName], at[ProbeName], at[AirName], at[HumidityName], at[PanelName],
            Where(ReceivedName), Where(SequenceName), Where(ClockName));

        int? Where(string name) => at.TryGetValue(name, out int column) ? column : null;
    }

    private static bool IsKnown(string name) => Required.Contains(name) || Optional.Contains(name);
}
