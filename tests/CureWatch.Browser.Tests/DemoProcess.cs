using System.Diagnostics;
using System.Globalization;
using System.Text.Json;

namespace CureWatch.Browser.Tests;

/// <summary>The demo as people start it: its own process, ports and folder, gone with the test.</summary>
internal sealed class DemoProcess : IDisposable
{
    private readonly DirectoryInfo _data = Directory.CreateTempSubdirectory("curewatch-");
    private readonly Process _process;

    private DemoProcess() => _process = Process.Start(new ProcessStartInfo("dotnet")
    {
        ArgumentList =
        {
            Path.Combine(AppContext.BaseDirectory, "curewatch.dll"), "demo", "--data", Path.Combine(_data.FullName, "data"), "--port", "0", "--mqtt-port", "0", "--json",
        },
        RedirectStandardOutput = true,
    })!;

    public Uri Board { get; private set; } = null!;

    public static async Task<DemoProcess> StartAsync()
    {
        var demo = new DemoProcess();
        string ready = await demo._process.StandardOutput.ReadLineAsync(TestContext.Current.CancellationToken) ?? throw new InvalidOperationException("It did not start.");
        demo.Board = new Uri(JsonElement.Parse(ready).GetProperty("board").GetString()!);
        return demo;
    }

    /// <summary>Stops it as a machine out of breath does: nothing is closed, and nothing answers.</summary>
    public void Stall() => Signal("STOP");

    public void GoOn() => Signal("CONT");

    public void Dispose()
    {
        _process.Kill();
        _process.WaitForExit();
        _process.Dispose();
        _data.Delete(recursive: true);
    }

    private void Signal(string signal)
    {
        using var kill = Process.Start("kill", [$"-{signal}", _process.Id.ToString(CultureInfo.InvariantCulture)]);
        kill.WaitForExit();
    }
}
