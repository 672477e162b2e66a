using System.Diagnostics;
using System.Net;
using System.Net.Sockets;

namespace CureWatch.Service.Tests.Mqtt;

/// <summary>Debian's broker as a process of this test alone, on a free port, with what it keeps in a folder of its own.</summary>
internal sealed class Mosquitto : IAsyncDisposable
{
    private readonly DirectoryInfo _folder = Directory.CreateTempSubdirectory("curewatch-");
    private Process? _process;

    private Mosquitto(int port) => Port = port;

    public int Port { get; }

    public string Folder => _folder.FullName;

    /// <param name="more">More lines of its configuration; <c>{0}</c> is its folder.</param>
    /// <param name="prepare">Puts files into its folder.</param>
    public static async Task<Mosquitto> StartAsync(string more = "allow_anonymous true", Action<string>? prepare = null)
    {
        var broker = new Mosquitto(FreePort());
        prepare?.Invoke(broker.Folder);
        await File.WriteAllTextAsync(broker.In("mosquitto.conf"), $"""
            listener {broker.Port} 127.0.0.1
            persistence true
            persistence_location {broker.Folder}/
            max_queued_messages 0
            user root
            {string.Format(more, broker.Folder)}

            """);
        await broker.StartAsync();
        return broker;
    }

    public async Task StartAsync()
    {
        _process = Process.Start(new ProcessStartInfo(Find("mosquitto"), ["-c", In("mosquitto.conf")]) { RedirectStandardError = true, RedirectStandardOutput = true })!;
        _process.ErrorDataReceived += (_, _) => { };
        _process.BeginErrorReadLine();
        await Eventually.TrueAsync(Answers, "mosquitto to listen");
    }

    /// <summary>Ends it as a service manager does: what it keeps goes to disk.</summary>
    public Task StopAsync() => EndAsync("-TERM");

    /// <summary>Ends it as a power cut does.</summary>
    public Task KillAsync() => EndAsync("-KILL");

    private async Task EndAsync(string signal)
    {
        using Process process = _process!;
        _process = null;
        using (var kill = Process.Start("kill", [signal, $"{process.Id}"]))
        {
            await kill.WaitForExitAsync(TestContext.Current.CancellationToken);
        }

        await process.WaitForExitAsync(TestContext.Current.CancellationToken).InTimeAsync();
    }

    public static async Task PublishAsync(int port, params string[] options)
    {
        using Process process = Process.Start(new ProcessStartInfo(Find("mosquitto_pub"), ["-h", "127.0.0.1", "-p", $"{port}", .. options]) { RedirectStandardError = true })!;
        string error = await process.StandardError.ReadToEndAsync(TestContext.Current.CancellationToken);
        await process.WaitForExitAsync(TestContext.Current.CancellationToken).InTimeAsync();
        Assert.True(process.ExitCode == 0, error);
    }

    public async ValueTask DisposeAsync()
    {
        if (_process is { } process)
        {
            process.Kill();
            await process.WaitForExitAsync();
            process.Dispose();
        }

        _folder.Delete(recursive: true);
    }

    private static int FreePort()
    {
        using var listener = new TcpListener(IPAddress.Loopback, 0);
        listener.Start();
        return ((IPEndPoint)listener.LocalEndpoint).Port;
    }

    private static string Find(string program)
    {
        string[] places = [.. (Environment.GetEnvironmentVariable("PATH") ?? "").Split(Path.PathSeparator), "/usr/sbin", "/usr/local/sbin"];
        string? found = places.Select(p => Path.Combine(p, program)).FirstOrDefault(File.Exists);
        Assert.SkipUnless(found is not null, $"{program} is missing: this test talks to a real broker. Debian: apt-get install mosquitto mosquitto-clients.");
        return found!;
    }

    private string In(string file) => Path.Combine(Folder, file);

    private bool Answers()
    {
        Assert.False(_process!.HasExited, $"mosquitto ended with {(_process.HasExited ? _process.ExitCode : 0)}");
        try
        {
            using var client = new TcpClient();
            client.Connect(IPAddress.Loopback, Port);
            return true;
        }
        catch (SocketException)
        {
            return false;
        }
    }
}
