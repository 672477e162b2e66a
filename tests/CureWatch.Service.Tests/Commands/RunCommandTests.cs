using System.Diagnostics;
using System.Net;
using System.Net.Sockets;
using System.Text;
using CureWatch.Service.Board;
using CureWatch.Service.Commands;
using CureWatch.Service.Disk;
using CureWatch.Service.Journal;
using CureWatch.Service.Settings;
using Microsoft.AspNetCore.Hosting.Server;
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
    public void Host_WhoseBoardMayNotListen_SaysWhereInOneLine() => Assert.StartsWith(
        "The board cannot listen on port 0: ", WhyNot(services => services.AddHostedService<Forbidden>()), StringComparison.Ordinal);

    // The journal is opened when its service is made, before any has been started: a test run by root may write any file.
    [Fact]
    public void Host_ThatMayNotWriteAFile_SaysWhichInOneLine()
    {
        const string Denied = "Access to the path '/x/00000000000000000001.journal' is denied.";
        Assert.Equal(
            $"data: data folder: {Denied} This program has to be allowed to read and write every file in it.",
            WhyNot(services => services.AddSingleton<IHostedService>(_ => throw new UnauthorizedAccessException(Denied))));
    }

    [Fact]
    public async Task Host_ToldToStopWhileAPhoneIsHalfWayThroughATap_StopsSoon()
    {
        var faults = new Faults();
        string config = Path.Combine(AppContext.BaseDirectory, "config");
        using DataFolder folder = DataFolder.Hold(LocalDisk.Instance, _data, isDemo: false, faults)!;
        ServiceHost host = ServiceHost.Build(
            SomewhereFree(faults), folder, Recovered.From(folder, config, isForced: false, faults)!, TimeProvider.System, faults)!;
        var lifetime = host.Services.GetRequiredService<IHostApplicationLifetime>();
        var started = new TaskCompletionSource(TaskCreationOptions.RunContinuationsAsynchronously);
        lifetime.ApplicationStarted.Register(started.SetResult);
        using var error = new StringWriter();
        Task<int> running = Task.Run(() => host.Run(null, error), TestContext.Current.CancellationToken);
        await started.Task.WaitAsync(Patience, TestContext.Current.CancellationToken);
        var board = new Uri(BoardAddresses.Plain(host.Services.GetRequiredService<IServer>()));
        using var phone = new TcpClient(board.Host, board.Port);
        await phone.GetStream().WriteAsync(
            Encoding.ASCII.GetBytes($"POST /api/v1/jobs HTTP/1.1\r\nHost: {board.Authority}\r\nContent-Type: application/json\r\nContent-Length: 99\r\nExpect: 100-continue\r\n\r\n"),
            TestContext.Current.CancellationToken);
        _ = await phone.GetStream().ReadAsync(new byte[1], TestContext.Current.CancellationToken); // it is reading our body now

        lifetime.StopApplication();

        Assert.Equal(0, await running.WaitAsync(Patience, TestContext.Current.CancellationToken));
    }

    private string WhyNot(Action<IServiceCollection> more)
    {
        var faults = new Faults();
        string config = Path.Combine(AppContext.BaseDirectory, "config");
        using DataFolder folder = DataFolder.Hold(LocalDisk.Instance, _data, isDemo: false, faults)!;
        ServiceHost host = ServiceHost.Build(
            SomewhereFree(faults), folder, Recovered.From(folder, config, isForced: false, faults)!, TimeProvider.System, faults, more)!;
        using var error = new StringWriter();

        int exitCode = host.Run(null, error);

        Assert.Equal(2, exitCode);
        return Assert.Single(WithoutLog(error.ToString()));
    }

    private static ServiceSettings SomewhereFree(Faults faults) =>
        ServiceFile.Read(null, [new ServiceVariable("CUREWATCH__MQTT__PORT", "0"), new ServiceVariable("CUREWATCH__BOARD__PORT", "0")], faults)!;

    private static IEnumerable<string> WithoutLog(string error) =>
        error.Split('\n', StringSplitOptions.RemoveEmptyEntries).Where(l => !l.StartsWith("info: CureWatch", StringComparison.Ordinal));

    /// <summary>Fails as a server does that may not listen on its port: a test run by root may listen on any.</summary>
    private sealed class Forbidden : IHostedService
    {
        public Task StartAsync(CancellationToken cancellationToken) => throw new SocketException((int)SocketError.AccessDenied);

        public Task StopAsync(CancellationToken cancellationToken) => Task.CompletedTask;
    }
}
