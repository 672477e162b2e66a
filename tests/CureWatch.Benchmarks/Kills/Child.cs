using System.Collections.Concurrent;
using System.Diagnostics;
using System.Globalization;
using System.Text.Json;

namespace CureWatch.Benchmarks.Kills;

/// <summary>The program itself as a process of its own, which can be killed without a word.</summary>
internal sealed class Child : IDisposable
{
    private readonly Process _process;
    private readonly ConcurrentQueue<string> _log = new();

    private Child(Process process)
    {
        _process = process;
        _process.ErrorDataReceived += (_, e) => _log.Enqueue(e.Data ?? "");
        _process.BeginErrorReadLine();
    }

    public bool HasExited => _process.HasExited;

    /// <summary>What it has logged so far.</summary>
    public IEnumerable<string> Log => _log;

    public static Child Start(params string[] arguments)
    {
        var start = new ProcessStartInfo("dotnet", [typeof(Service.Commands.CommandLine).Assembly.Location, .. arguments])
        {
            RedirectStandardOutput = true,
            RedirectStandardError = true,
        };
        return new Child(Process.Start(start)!);
    }

    /// <returns>Where the service is reached once it is ready; null where it ended before.</returns>
    public async Task<Addresses?> ReadyAsync() =>
        await _process.StandardOutput.ReadLineAsync() is { } line ? Addresses.Of(JsonElement.Parse(line)) : null;

    /// <returns>All it writes until it ends, and its exit code.</returns>
    public async Task<(string Output, int ExitCode)> EndAsync()
    {
        string output = await _process.StandardOutput.ReadToEndAsync();
        await _process.WaitForExitAsync();
        return (output, _process.ExitCode);
    }

    /// <summary>SIGKILL.</summary>
    public async Task KillAsync()
    {
        _process.Kill();
        await _process.WaitForExitAsync();
    }

    /// <summary>SIGTERM, as a stop or a shutdown of the machine sends it.</summary>
    /// <returns>The exit code.</returns>
    public async Task<int> StopAsync()
    {
        using var kill = Process.Start("kill", ["-TERM", _process.Id.ToString(CultureInfo.InvariantCulture)]);
        await kill.WaitForExitAsync();
        await _process.WaitForExitAsync();
        return _process.ExitCode;
    }

    public void Dispose()
    {
        if (!_process.HasExited)
        {
            _process.Kill();
        }

        _process.Dispose();
    }
}

/// <summary>Where a service is reached.</summary>
internal sealed record Addresses(Uri Board, int MqttPort)
{
    public static Addresses Of(JsonElement ready) =>
        new(new Uri(ready.GetProperty("board").GetString()!), new Uri(ready.GetProperty("mqtt").GetString()!).Port);
}
