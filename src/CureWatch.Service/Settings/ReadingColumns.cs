using nietras.SeparatedValues;

namespace CureWatch.Service.Settings;

/// <summary>Which column of a readings file holds what.</summary>
internal sealed record ReadingColumns(
    int Count, int Time, int Bay, int Probe, int AirC, int HumidityPct, int PanelC, int? ReceivedAt)
{
    public const string TimeName = "time";
    public const string BayName = "bay";
    public const string ProbeName = "probe";
    public const string AirName = "air_c";
    public const string HumidityName = "humidity_pct";
    public const string PanelName = "panel_c";
    public const string ReceivedName = "received_at";

    /// <summary>Said here because Sep 0.17.1 numbers a first row that it does not know for a header by the line after it.</summary>
    private const int HeaderLine = 1;

    private static readonly string[] Required = [TimeName, BayName, ProbeName, AirName, HumidityName, PanelName];

    /// <returns>The columns, or null where the header holds a fault.</returns>
    public static ReadingColumns? Read(SepReader.Row header, ReadingsFaults faults)
    {
        var at = new Dictionary<string, int>(StringComparer.Ordinal);
        bool whole = true;
        for (int i = 0; i < header.ColCount; i++)
        {
            string name = header[i].ToString();
            if (name != ReceivedName && !Required.Contains(name))
            {
                faults.Add(HeaderLine, null, name, $"the columns {string.Join(',', Required)} and {ReceivedName}, by comma");
                whole = false;
            }
            else if (!at.TryAdd(name, i))
            {
                faults.Add(HeaderLine, name, name, "each column once");
                whole = false;
            }
        }

        foreach (string name in Required.Where(n => !at.ContainsKey(n)))
        {
            faults.Add(HeaderLine, name, "", $"the column {name}, which is required");
            whole = false;
        }

        return !whole ? null : new ReadingColumns(
            header.ColCount, at[TimeName], at[BayName], at[ProbeName], at[AirName], at[HumidityName], at[PanelName],
            at.TryGetValue(ReceivedName, out int received) ? received : null);
    }
}
