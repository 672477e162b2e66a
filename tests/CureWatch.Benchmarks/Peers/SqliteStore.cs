using System.Diagnostics;
using System.Globalization;
using System.Net;
using System.Net.Sockets;
using System.Text.Json;
using CureWatch.Benchmarks.Harness;
using MQTTnet;
using MQTTnet.Formatter;
using MQTTnet.Protocol;

namespace CureWatch.Benchmarks.Peers;

/// <summary>
/// Debian's broker, which keeps its queues on disk, and a subscriber with a session of its own that writes into SQLite: write-ahead log,
/// synchronous=FULL.
/// </summary>
/// <param name="name">What it is called in the table.</param>
/// <param name="subscriber">The command that subscribes, given the port and the database.</param>
internal sealed class SqliteStore(string name, Func<int, string, string> subscriber) : IStore
{
    private static readonly TimeSpan Step = TimeSpan.FromMilliseconds(50);

    private const string Real = " WHERE topic LIKE '%/probe/%'";

    private readonly DirectoryInfo _folder = Directory.CreateTempSubdirectory("curewatch-peer-");
    private Process? _broker;
    private Process? _subscriber;

    public string Name => name;

    public int Port { get; private set; }

    private string Database => Path.Combine(_folder.FullName, "readings.db");

    public static SqliteStore OfShell() => new("mosquitto_sub to sqlite3", (port, database) =>
        $$"""
        sqlite3 {{database}} "PRAGMA journal_mode=WAL; CREATE TABLE IF NOT EXISTS readings(topic TEXT, payload TEXT);" > /dev/null
        mosquitto_sub -p {{port}} -i store -c -q 1 -t 'curewatch/#' -F "INSERT INTO readings VALUES('%t', '%p');" | sqlite3 -cmd "PRAGMA synchronous=FULL" {{database}}
        """);

    /// <param name="commit">What is committed at once: <c>each</c> reading, or what came in one go, <c>gathered</c>.</param>
    public static SqliteStore OfPython(string commit) => new($"Python to SQLite, {commit}", (port, database) =>
        $"exec python3 {Path.Combine(AppContext.BaseDirectory, "Peers", "subscriber.py")} {port} {database} {commit} 2> /dev/null");

    public async Task StartAsync()
    {
        Port = FreePort.Find();
        string configuration = Path.Combine(_folder.FullName, "mosquitto.conf");
        await File.WriteAllTextAsync(configuration, string.Create(CultureInfo.InvariantCulture, $"""
            listener {Port} 127.0.0.1
            allow_anonymous true
            persistence true
            persistence_location {_folder.FullName}/
            max_queued_messages 0
            user root

            """));
        _broker = Start($"exec mosquitto -c {configuration} 2> /dev/null");
        while (!IsListening())
        {
            await Task.Delay(Step, TimeProvider.System);
        }

        _subscriber = Start(subscriber(Port, Database));
        using IMqttClient client = new MqttClientFactory().CreateMqttClient();
        _ = await client.ConnectAsync(new MqttClientOptionsBuilder()
            .WithTcpServer("127.0.0.1", Port).WithClientId("ready").WithProtocolVersion(MqttProtocolVersion.V500).Build());
        while ((await client.PublishStringAsync($"{LoadShop.Root}/ready", "", MqttQualityOfServiceLevel.AtLeastOnce)).ReasonCode
            == MqttClientPublishReasonCode.NoMatchingSubscribers)
        {
            await Task.Delay(Step, TimeProvider.System); // before it has subscribed, nobody queues for it
        }
    }

    public async Task KillAsync()
    {
        foreach (Process process in new[] { _broker, _subscriber }.OfType<Process>())
        {
            process.Kill(entireProcessTree: true);
            await process.WaitForExitAsync();
            process.Dispose();
        }

        (_broker, _subscriber) = (null, null);
    }

    public async Task<int> CountAsync() => int.Parse((await AskAsync("SELECT count(*) FROM readings" + Real)).Trim(), CultureInfo.InvariantCulture);

    public async Task<HashSet<string>> KeysAsync()
    {
        int before = -1;
        while (await CountAsync() is var count && count != before)
        {
            before = count;
            await Task.Delay(TimeSpan.FromSeconds(2), TimeProvider.System); // the broker still has some for it
        }

        string rows = await AskAsync("SELECT topic || ' ' || payload FROM readings" + Real);
        return [.. rows.Split('\n', StringSplitOptions.RemoveEmptyEntries).Select(KeyOf)];
    }

    public async ValueTask DisposeAsync()
    {
        await KillAsync();
        _folder.Delete(recursive: true);
    }

    private static string KeyOf(string row)
    {
        string[] parts = row.Split(' ', 2), topic = parts[0].Split('/');
        return KeyedLoad.KeyOf(topic[3], topic[5], JsonElement.Parse(parts[1]).GetProperty("at").GetDateTimeOffset());
    }

    private static Process Start(string command) =>
        Process.Start(new ProcessStartInfo("bash", ["-c", $"PATH=$PATH:/usr/sbin; {command}"]) { RedirectStandardInput = true })!;

    private async Task<string> AskAsync(string query)
    {
        var start = new ProcessStartInfo("sqlite3", ["-cmd", ".timeout 5000", Database, query]) { RedirectStandardOutput = true };
        using Process process = Process.Start(start)!;
        string answer = await process.StandardOutput.ReadToEndAsync();
        await process.WaitForExitAsync();
        return answer;
    }

    private bool IsListening()
    {
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
