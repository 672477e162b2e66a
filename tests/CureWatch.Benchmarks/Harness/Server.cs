using System.Collections.Concurrent;
using System.Diagnostics;
using System.Globalization;
using System.Text.Json;

namespace CureWatch.Benchmarks.Harness;

/// <summary>A server as a process of its own, so that its work is measured apart from the load's.</summary>
internal sealed class Server : IDisposable
{
    private readonly Process _process;
    private readonly string _gauge = Path.GetTempFileName();
    private readonly ConcurrentQueue<string> _log = new();

    private Server(params string[] arguments)
    {
        var start = new ProcessStartInfo("dotnet", arguments)
        {
            RedirectStandardOutput = true,
            RedirectStandardError = true,
            RedirectStandardInput = true,
        };
        start.Environment["DOTNET_STARTUP_HOOKS"] = typeof(Server).Assembly.Location;
        start.Environment[StartupHook.File] = _gauge;
        _process = Process.Start(start)!;
        _process.ErrorDataReceived += (_, e) => _log.Enqueue(e.Data ?? "");
        _process.BeginErrorReadLine();
    }

    /// <summary>The port of its broker.</summary>
    public int MqttPort { get; private set; }

    /// <summary>Where its board is; null for a bare broker.</summary>
    public Uri? Board { get; private set; }

    public int ProcessId => _process.Id;

    /// <summary>What it has logged so far.</summary>
    public IEnumerable<string> Log => _log;

    public static async Task<Server> BareAsync()
    {
        int port = FreePort.Find();
        var server = new Server(typeof(Server).Assembly.Location, BareBroker.Verb, port.ToString(CultureInfo.InvariantCulture)) { MqttPort = port };
        _ = await server.ReadyAsync();
        return server;
    }

    public static async Task<Server> CureWatchAsync(LoadShop shop)
    {
        var server = new Server(
            typeof(Service.Commands.CommandLine).Assembly.Location, "run", "--config", shop.Config, "--data", shop.Data, "--port", "0", "--mqtt-port", "0", "--json");
        JsonElement ready = JsonElement.Parse(await server.ReadyAsync());
        server.MqttPort = new Uri(ready.GetProperty("mqtt").GetString()!).Port;
        server.Board = new Uri(ready.GetProperty("board").GetString()!);
        return server;
    }

    public Usage Usage()
    {
        _process.Refresh();
        long[] told = [.. File.ReadAllText(_gauge).Split(' ', StringSplitOptions.RemoveEmptyEntries).Select(long.Parse)];
        return told.Length == 0
            ? new Usage(_process.TotalProcessorTime, _process.WorkingSet64, 0, 0, TimeSpan.Zero, 0)
            : new Usage(_process.TotalProcessorTime, _process.WorkingSet64, told[0], told[1], TimeSpan.FromTicks(told[2]), told[3]);
    }

    /// <summary>SIGKILL.</summary>
    public void Dispose()
    {
        _process.Kill();
        _process.WaitForExit();
        _process.Dispose();
        File.Delete(_gauge);
        File.Delete(_gauge + ".new");
    }

    private async Task<string> ReadyAsync() =>
        await _process.StandardOutput.ReadLineAsync() ?? throw new IOException($"it did not start: {string.Join(' ', _log)}");
}

/// <summary>What a server has used since it began.</summary>
/// <param name="Processor">Processor time.</param>
/// <param name="ResidentBytes">Memory it occupies.</param>
/// <param name="HeapBytes">Of that, objects, garbage included.</param>
/// <param name="AllocatedBytes">All it ever allocated.</param>
/// <param name="Paused">Time in which it collected garbage and did nothing else; as long as that took, whoever had the processor.</param>
/// <param name="FullCollections">Full collections.</param>
internal readonly record struct Usage(TimeSpan Processor, long ResidentBytes, long HeapBytes, long AllocatedBytes, TimeSpan Paused, long FullCollections);
