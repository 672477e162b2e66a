using System.Diagnostics.CodeAnalysis;
using System.Globalization;

/// <summary>
/// Read by .NET in a server's process before its own first line, by the name it has to have: writes down now and then what only that
/// process knows of itself. The server is the program as it ships, with its own settings.
/// </summary>
[SuppressMessage("Design", "CA1050", Justification = "The runtime looks for it outside any namespace.")]
internal static class StartupHook
{
    /// <summary>The variable that names the file.</summary>
    public const string File = "BENCH_GAUGE";

    private const int EveryMilliseconds = 100;

    public static void Initialize()
    {
        string path = Environment.GetEnvironmentVariable(File)!;
        var thread = new Thread(() =>
        {
            while (true)
            {
                string text = string.Create(
                    CultureInfo.InvariantCulture,
                    $"{GC.GetTotalMemory(forceFullCollection: false)} {GC.GetTotalAllocatedBytes()} {GC.GetTotalPauseDuration().Ticks} {GC.CollectionCount(2)}");
                System.IO.File.WriteAllText(path + ".new", text);
                System.IO.File.Move(path + ".new", path, overwrite: true);
                Thread.Sleep(EveryMilliseconds);
            }
        })
        { IsBackground = true, Name = "gauge" };
        thread.Start();
    }
}
