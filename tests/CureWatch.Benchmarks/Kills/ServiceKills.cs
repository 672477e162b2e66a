using System.Text.Json;
using CureWatch.Service.Book;
using CureWatch.Service.Disk;
using CureWatch.Service.Journal;

namespace CureWatch.Benchmarks.Kills;

/// <summary>
/// The service under load from outside, killed at random moments and started again on the same folder, then stopped and audited. The only
/// thing taken from inside is the reader of the journal, afterwards.
/// </summary>
/// <param name="seed">Of the moments.</param>
/// <param name="longestUnderLoad">How long after it is ready it may live.</param>
/// <param name="brokerPort">Where an external broker listens, which outlives it; null for the embedded one.</param>
internal sealed class ServiceKills(int seed, TimeSpan longestUnderLoad, int? brokerPort = null) : IDisposable
{
    /// <summary>One kill in so many comes during a start, from its first moment on.</summary>
    private const int OneDuringStartIn = 5;

    /// <summary>So many answers after a start, the load is under way.</summary>
    private const int UnderWay = 50;

    private static readonly TimeSpan LongestStart = TimeSpan.FromSeconds(1.5);
    private static readonly TimeSpan Patience = TimeSpan.FromSeconds(60);
    private static readonly TimeSpan Step = TimeSpan.FromMilliseconds(20);

    private readonly Random _random = new(seed);
    private readonly LoadedShop _shop = new(brokerPort);
    private readonly Crew _crew = new();
    private volatile bool _isKilling;

    /// <summary>How many were killed before they were ready.</summary>
    public int DuringStart { get; private set; }

    /// <summary>After how many kills <c>verify</c> found damage. Must be 0.</summary>
    public int Damaged { get; private set; }

    /// <summary>Kills the service again and again, and audits what it leaves.</summary>
    /// <param name="kills">How often.</param>
    /// <param name="alsoDuringStart">Whether a kill may come before the load is under way.</param>
    public async Task<Findings> RunAsync(int kills, bool alsoDuringStart)
    {
        if (brokerPort is not null)
        {
            await SubscribeAsync();
        }

        for (int i = 0; i < kills; i++)
        {
            await KillAsync(alsoDuringStart);
            bool hasJournal = Directory.Exists(DataFolder.JournalOf(_shop.Data)) && Segment.In(LocalDisk.Instance, DataFolder.JournalOf(_shop.Data)).Count > 0;
            Damaged += hasJournal && !Audit.IsSound(_shop.Data) ? 1 : 0;
        }

        string book = Path.Combine(_shop.Data, "book");
        int exitCode = await SettleAsync();
        if (BookContent.Position(LocalDisk.Instance, book).Sequence < Audit.LastIn(LocalDisk.Instance, _shop.Data) - Findings.MostBehind)
        {
            exitCode = await LevelAsync();
        }

        Audit audit = Audit.Of(LocalDisk.Instance, _shop.Data);
        BookPosition position = BookContent.Position(LocalDisk.Instance, book);
        IReadOnlyList<string> rebuilt = BookContent.Rebuilt(LocalDisk.Instance, _shop.Scratch(0), Audit.Read(LocalDisk.Instance, _shop.Data), position.Sequence);
        return new Findings(
            audit,
            _crew.Ledger,
            _crew.Heard,
            exitCode,
            BookBehind: audit.Recovery.End.Last - position.Sequence,
            IsBookRight: rebuilt.SequenceEqual(BookContent.In(LocalDisk.Instance, book)));
    }

    public void Dispose() => _shop.Dispose();

    /// <summary>Lives once in peace: from then on the external broker keeps for it what it misses.</summary>
    private async Task SubscribeAsync()
    {
        using Child service = _shop.Run();
        Addresses addresses = await ReadyAsync(service);
        using var board = new HttpClient { BaseAddress = addresses.Board };
        await Crew.HeardAsync(addresses, async () =>
            JsonElement.Parse(await board.GetStringAsync(new Uri("api/v1/readings", UriKind.Relative))).GetProperty("accepted").GetInt64() > 0);
        _ = await service.StopAsync();
    }

    private static async Task<Addresses> ReadyAsync(Child service) =>
        await service.ReadyAsync() ?? throw new IOException($"It did not start: {string.Join('\n', service.Log)}");

    private async Task KillAsync(bool alsoDuringStart)
    {
        using Child service = _shop.Run();
        using var ended = new CancellationTokenSource();
        _isKilling = false;
        Task<Addresses?> ready = service.ReadyAsync();
        Task load = LoadAsync(service, ready, ended.Token);
        bool isDuringStart = alsoDuringStart && _random.Next(OneDuringStartIn) == 0;
        if (!isDuringStart)
        {
            _ = await ready;
            await AcknowledgedAsync(alsoDuringStart ? 0 : UnderWay, load);
        }

        Task moment = Task.Delay(_random.NextDouble() * (isDuringStart ? LongestStart : longestUnderLoad), TimeProvider.System);
        if (await Task.WhenAny(moment, load) == load)
        {
            await load; // it broke before anybody killed anything
        }

        _isKilling = true;
        DuringStart += ready.IsCompleted ? 0 : 1;
        await service.KillAsync();
        ended.CancelAfter(TimeSpan.FromMilliseconds(300)); // what was on its way to the senders still arrives
        await load;
    }

    private async Task AcknowledgedAsync(int more, Task load)
    {
        int enough = _crew.Ledger.Acknowledged.Count() + more;
        while ((_crew.Ledger.Acknowledged.Count() < enough || !HasPeople(more)) && !load.IsCompleted)
        {
            await Task.Delay(Step, TimeProvider.System);
        }
    }

    /// <summary>A load that is under way has people in it too, however slow the machine is.</summary>
    private bool HasPeople(int more) => more == 0 || _crew.Ledger.Acknowledged.Any(a => a.StartsWith("tap", StringComparison.Ordinal));

    private async Task LoadAsync(Child service, Task<Addresses?> ready, CancellationToken cancelled)
    {
        if (await ready is not { } addresses)
        {
            if (!_isKilling)
            {
                throw new IOException($"It did not start: {string.Join('\n', service.Log)}");
            }

            return;
        }

        await _crew.WorkAsync(addresses, () => _isKilling, cancelled);
    }

    /// <summary>The last start: everything open is told, and the service is stopped as it should be.</summary>
    private async Task<int> SettleAsync()
    {
        using Child service = _shop.Run();
        using var patience = new CancellationTokenSource(Patience, TimeProvider.System);
        await _crew.SettleAsync(await ReadyAsync(service), patience.Token);
        while (brokerPort is not null && !patience.IsCancellationRequested && _crew.Ledger.Acknowledged.Except(Audit.Of(LocalDisk.Instance, _shop.Data).Keys).Any())
        {
            await Task.Delay(Step * 25, TimeProvider.System); // the broker has it, and brings it
        }

        return await service.StopAsync();
    }

    /// <summary>A book that was still behind when the service stopped catches up at the next start.</summary>
    private async Task<int> LevelAsync()
    {
        using Child service = _shop.Run();
        using var patience = new CancellationTokenSource(Patience, TimeProvider.System);
        while (!service.Log.Any(l => l.Contains("The book is level", StringComparison.Ordinal)))
        {
            await Task.Delay(Step, TimeProvider.System, patience.Token);
        }

        return await service.StopAsync();
    }
}
