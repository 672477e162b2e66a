namespace CureWatch.Service.Settings;

/// <summary>The faults of one readings file: the first hundred are told, the rest counted.</summary>
internal sealed class ReadingsFaults(string file, Faults faults)
{
    private const int MostTold = 100;
    private int _count;

    public void Add(int line, string? column, ReadOnlySpan<char> seen, string allowed)
    {
        if (++_count <= MostTold)
        {
            string place = column is null ? $"line {line}" : $"line {line}, column {column}";
            faults.Add(file, place, seen.ToString(), allowed);
        }
    }

    /// <summary>Says, at the end of the file, how many faults were not told.</summary>
    public void Close()
    {
        if (_count > MostTold)
        {
            faults.Add(file, "further lines", $"and {_count - MostTold} more", "as above");
        }
    }
}
