namespace CureWatch.Service.Settings;

/// <summary>How the service runs: <c>curewatch.json</c>. Its sections have no keys yet.</summary>
internal static class ServiceFile
{
    private static readonly string[] Sections = ["mqtt", "data", "board", "limits"];

    public static void Check(string path, Faults faults)
    {
        if (JsonFile.Open(path, faults) is not { } top || !top.Keys([], Sections))
        {
            return;
        }

        foreach (string section in Sections)
        {
            _ = top[section].Keys([]);
        }
    }
}
