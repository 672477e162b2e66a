using System.Diagnostics;
using System.Net;
using System.Net.Sockets;

namespace CureWatch.Service.Tests.Commands;

/// <summary>The service as a process of its own, where it cannot start.</summary>
public sealed class RunCommandTests : IDisposable
{
    /// <summary>Far longer than a start takes, shorter than the half minute a host grants services that do not end.</summary>
    private static readonly TimeSpan Patience = TimeSpan.FromSeconds(25);

    private readonly string _data = Directory.CreateTempSubdirectory("curewatch-run-test-").FullName;
    private readonly TcpListener _other = new(IPAddress.Loopback, 0);

    public RunCommandTests() => _other.Start();

    public void Dispose()
    {
        _other.Dispose();
        Directory.Delete(_data, recursive: true);
    }

    [Theory]
    [InlineData("--port", "--mqtt-port")]
    [InlineData("--mqtt-port", "--port")]
    public async Task Run_OnAPortInUse_EndsAtOnceWithOneLine(string taken, string free)
    {
        string program = Path.Combine(AppContext.BaseDirectory, "curewatch.dll");
        string config = Path.Combine(AppContext.BaseDirectory, "config");
        string port = $"{((IPEndPoint)_other.LocalEndpoint).Port}";
        using Process run = Process.Start(new ProcessStartInfo("dotnet", [program, "run", "--config", config, "--data", _data, taken, port, free, "0"])
        {
            RedirectStandardOutput = true,
            RedirectStandardError = true,
        })!;
        try
        {
            Task<string> output = run.StandardOutput.ReadToEndAsync(TestContext.Current.CancellationToken);
            string error = await run.StandardError.ReadToEndAsync(TestContext.Current.CancellationToken).WaitAsync(Patience, TestContext.Current.CancellationToken);
            await run.WaitForExitAsync(TestContext.Current.CancellationToken);

            Assert.Equal(2, run.ExitCode);
            Assert.Empty(await output);
            Assert.Contains(port, Assert.Single(error.Split('\n', StringSplitOptions.RemoveEmptyEntries)), StringComparison.Ordinal);
        }
        finally
        {
            run.Kill();
        }
    }
}
