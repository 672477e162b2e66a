using CureWatch.Benchmarks.Harness;
using CureWatch.Benchmarks.Kills;
using CureWatch.Service.Disk;
using CureWatch.Service.Journal;

namespace CureWatch.Benchmarks.Peers;

/// <summary>This program, with its own broker. What it acknowledged is stored: nobody has to wait for more.</summary>
internal sealed class CureWatchStore(LoadShop shop) : IStore
{
    private Server? _server;

    public string Name => "CureWatch";

    public int Port => _server!.MqttPort;

    public async Task StartAsync() => _server = await Server.CureWatchAsync(shop);

    public Task KillAsync()
    {
        _server?.Dispose();
        _server = null;
        return Task.CompletedTask;
    }

    public Task<int> CountAsync() => Task.FromResult(int.MaxValue);

    public Task<HashSet<string>> KeysAsync() => Task.FromResult<HashSet<string>>(
        [.. Audit.Read(LocalDisk.Instance, shop.Data).Steps().Select(s => s.Entry).OfType<Entry.Reading>().Select(e => KeyedLoad.KeyOf(e.Bay, e.Probe, e.MeasuredAt!.Value))]);

    public async ValueTask DisposeAsync() => await KillAsync();
}
