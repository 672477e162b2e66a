using System.Diagnostics;
using System.Net;
using System.Net.Sockets;
using CureWatch.Service.Commands;
using CureWatch.Service.Journal;
using CureWatch.Service.Settings;
using Microsoft.Extensions.DependencyInjection;
using Microsoft.Extensions.Hosting;

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
            Assert.Contains(port, Assert.Single(WithoutLog(error)), StringComparison.Ordinal);
        }
        finally
        {
            run.Kill();
        }
    }

    [Fact]
    public void Host_WhoseBoardMayNotListen_SaysWhereInOneLine()
    {
        var faults = new Faults();
        string config = Path.Combine(AppContext.BaseDirectory, "config");
        using DataFolder folder = DataFolder.Hold(_data, isDemo: false, faults)!;
        ServiceSettings settings = ServiceFile.Read(null, [new ServiceVariable("CUREWATCH__MQTT__PORT", "0"), new ServiceVariable("CUREWATCH__BOARD__PORT", "0")], faults)!;
        ServiceHost host = ServiceHost.Build(
            settings, folder, Recovered.From(folder, config, isForced: false, faults)!, TimeProvider.System, faults,
            services => services.AddHostedService<Forbidden>())!;
        using var error = new StringWriter();

        int exitCode = host.Run(null, error);

        Assert.Equal(2, exitCode);
        Assert.StartsWith("The board cannot listen on port 0: ", Assert.Single(WithoutLog(error.ToString())), StringComparison.Ordinal);
    }

    private static IEnumerable<string> WithoutLog(string error) =>
        error.Split('\n', StringSplitOptions.RemoveEmptyEntries).Where(l => !l.StartsWith("info: CureWatch", StringComparison.Ordinal));

    /// <summary>Fails as a server does that may not listen on its port: a test run by root may listen on any.</summary>
    private sealed class Forbidden : IHostedService
    {
        public Task StartAsync(CancellationToken cancellationToken) => throw new SocketException((int)SocketError.AccessDenied);

        public Task StopAsync(CancellationToken cancellationToken) => Task.CompletedTask;
    }
}
