using System.Diagnostics;
using System.Globalization;
using System.Net;
using System.Net.Sockets;

namespace CureWatch.Benchmarks.Power;

/// <summary>Debian's mosquitto as a process of its own on a free port, which keeps what a client has missed.</summary>
internal sealed class BrokerProcess : IDisposable
{
    private readonly DirectoryInfo _folder = Directory.CreateTempSubdirectory("curewatch-broker-");
    private readonly Process _process;

    private BrokerProcess(int port, string program)
    {
        Port = port;
        string file = Path.Combine(_folder.FullName, "mosquitto.conf");
        File.WriteAllText(file, string.Create(CultureInfo.InvariantCulture, $"listener {port} 127.0.0.1\nallow_anonymous true\nmax_queued_messages 0\n"));
        _process = Process.Start(new ProcessStartInfo(program, ["-c", file]) { RedirectStandardError = true })!;
        _process.BeginErrorReadLine();
    }

    public int Port { get; }

    /// <returns>The broker once it listens; null where there is none on this machine.</returns>
    public static async Task<BrokerProcess?> StartAsync()
    {
        string? program = new[] { "/usr/sbin/mosquitto", "/usr/local/sbin/mosquitto" }.FirstOrDefault(File.Exists);
        if (program is null)
        {
            return null;
        }

        using var free = new TcpListener(IPAddress.Loopback, 0);
        free.Start();
        int port = ((IPEndPoint)free.LocalEndpoint).Port;
        free.Stop();
        var broker = new BrokerProcess(port, program);
        using var client = new TcpClient();
        for (int i = 0; i < 100 && !client.Connected; i++)
        {
            try
            {
                await client.ConnectAsync(IPAddress.Loopback, port);
            }
            catch (SocketException)
            {
                await Task.Delay(TimeSpan.FromMilliseconds(50), TimeProvider.System);
            }
        }

        return broker;
    }

    public void Dispose()
    {
        _process.Kill();
        _process.WaitForExit();
        _process.Dispose();
        _folder.Delete(recursive: true);
    }
}
