using System.Diagnostics;
using System.Globalization;
using System.Net.Http.Json;
using System.Text.Json;
using CureWatch.Curing;
using CureWatch.Service.Disk;
using CureWatch.Service.Journal;
using CureWatch.Service.Pump;
using CureWatch.Service.Tests.Settings;

namespace CureWatch.Browser.Tests;

/// <summary>The service as a shop runs it: its own process, which can be killed, stalled and started again on the same data and the same port.</summary>
internal sealed class ShopProcess : IDisposable
{
    public const string Car = "/bay/bay-1/jobs/red-coupe";

    private readonly Written _files = new();
    private Process? _process;

    private ShopProcess()
    {
        _files.File("config/shop.json", """{"shop":"killed","timeZone":"Etc/UTC","bays":[{"bay":"bay-1","probes":[{"probe":"air","measures":"air"}]}]}""");
        _files.File(
            "config/products/paint.json",
            """{"product":"paint","revision":1,"kind":"paint","stages":[{"stage":"keep-dry","rows":[{"temperatureC":20,"humidityPct":50,"at":"12:00:00"}]}]}""");
    }

    public Uri Board { get; private set; } = new("http://127.0.0.1:0");

    private string Data => Path.Combine(_files.Folder, "data");

    /// <summary>Starts it in a new shop, with one car in.</summary>
    public static async Task<ShopProcess> OpenAsync()
    {
        var shop = new ShopProcess();
        await shop.StartAsync();
        using var client = new HttpClient { BaseAddress = shop.Board };
        using HttpResponseMessage answer = await client.PostAsJsonAsync(
            "/api/v1/jobs",
            new { job = "red-coupe", bay = "bay-1", car = "red coupe", surfaces = new[] { new { surface = "bonnet", material = "steel", product = "paint" } } },
            TestContext.Current.CancellationToken);
        answer.EnsureSuccessStatusCode();
        return shop;
    }

    public async Task StartAsync()
    {
        string[] arguments =
        [
            Path.Combine(AppContext.BaseDirectory, "curewatch.dll"), "run", "--config", Path.Combine(_files.Folder, "config"), "--data", Data,
            "--port", Board.Port.ToString(CultureInfo.InvariantCulture), "--mqtt-port", "0", "--json",
        ];
        _process = Process.Start(new ProcessStartInfo("dotnet", arguments) { RedirectStandardOutput = true })!;
        string ready = await _process.StandardOutput.ReadLineAsync(TestContext.Current.CancellationToken) ?? throw new InvalidOperationException("It did not start.");
        Board = new Uri(JsonElement.Parse(ready).GetProperty("board").GetString()!);
    }

    /// <summary>SIGKILL: nothing is closed, nothing is told.</summary>
    public async Task KillAsync() => await EndAsync("KILL");

    /// <summary>Stops it as a machine out of breath does: connections stand, and nothing answers.</summary>
    public void Stall() => Signal("STOP");

    public void GoOn() => Signal("CONT");

    /// <summary>Stops it as it should be.</summary>
    /// <returns>What it leaves in its journal of what people told.</returns>
    public async Task<IReadOnlyList<Tap>> ToldAsync()
    {
        await EndAsync("TERM");
        var journal = new Recovery(LocalDisk.Instance, DataFolder.JournalOf(Data), new EntryCodec(new KeyStore(LocalDisk.Instance, DataFolder.KeysOf(Data))));
        return [.. journal.Steps().Select(s => s.Entry).OfType<Entry.Tapped>().Select(e => e.Tap)];
    }

    public void Dispose()
    {
        if (_process is { HasExited: false })
        {
            _process.Kill();
            _process.WaitForExit();
        }

        _process?.Dispose();
        _files.Dispose();
    }

    private async Task EndAsync(string signal)
    {
        Signal(signal);
        await _process!.WaitForExitAsync(TestContext.Current.CancellationToken);
        _process.Dispose();
        _process = null;
    }

    private void Signal(string signal)
    {
        using var kill = Process.Start("kill", [$"-{signal}", _process!.Id.ToString(CultureInfo.InvariantCulture)]);
        kill.WaitForExit();
    }
}
