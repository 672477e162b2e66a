namespace CureWatch.Fuzz.Targets;

/// <summary>A file for as long as it is read, for what is read by its path.</summary>
internal static class ScratchFile
{
    public static T Read<T>(string name, byte[] bytes, Func<string, T> read)
    {
        string path = Path.Combine(Path.GetTempPath(), $"curewatch-{Environment.ProcessId}-{name}");
        try
        {
            File.WriteAllBytes(path, bytes);
            return read(path);
        }
        finally
        {
            File.Delete(path);
        }
    }
}
