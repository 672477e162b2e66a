using CureWatch.Benchmarks.Kills;
using CureWatch.Service.Book;
using CureWatch.Service.Journal;
using CureWatch.Service.Settings;

namespace CureWatch.Benchmarks.Power;

/// <summary>The service under load from outside, on a disk whose power goes again and again, in the middle of a call to it.</summary>
/// <param name="seed">Of the moments, and of what the disk keeps.</param>
/// <param name="broker">The external broker; null for the embedded one.</param>
internal sealed class PowerCuts(int seed, ExternalBroker? broker) : IDisposable
{
    /// <summary>One cut in so many comes during a start.</summary>
    private const int OneDuringStartIn = 5;

    private static readonly TimeSpan Patience = TimeSpan.FromSeconds(60);
    private static readonly TimeSpan Step = TimeSpan.FromMilliseconds(5);

    private readonly Random _random = new(seed);
    private readonly PowerCutDisk _disk = new(seed);
    private readonly LoadedShop _shop = new();
    private readonly Crew _crew = new();
    private volatile bool _isGoing;

    /// <summary>How many cuts came before the service was ready.</summary>
    public int DuringStart { get; private set; }

    /// <summary>How many starts got as far as to have to set their alarm.</summary>
    public int Starts { get; private set; }

    /// <summary>How many of them set it to the instant at which something falls due next.</summary>
    public int Armed { get; private set; }

    /// <summary>What was damaged after a cut. Must be none.</summary>
    public List<string> Damages { get; } = [];

    /// <summary>Lets the power go again and again, and audits what is left.</summary>
    public async Task<Findings> RunAsync(int cuts)
    {
        for (int i = 0; i < cuts; i++)
        {
            await CutAsync();
            if (_disk.Exists(DataFolder.JournalOf(PoweredService.Data)))
            {
                Damages.AddRange(JournalReader.DamagesIn(_disk, DataFolder.JournalOf(PoweredService.Data)).Select(d => $"after cut {i + 1}: {d}"));
            }
        }

        int exitCode = await SettleAsync();
        string book = DataFolder.BookOf(PoweredService.Data);
        Audit audit = Audit.Of(_disk, PoweredService.Data);
        BookPosition position = BookContent.Position(_disk, book);
        IReadOnlyList<string> rebuilt = BookContent.Rebuilt(_disk, "/rebuilt", Audit.Read(_disk, PoweredService.Data), position.Sequence);
        return new Findings(
            audit,
            _crew.Ledger,
            _crew.Heard,
            exitCode,
            BookBehind: audit.Recovery.End.Last - position.Sequence,
            IsBookRight: rebuilt.SequenceEqual(BookContent.In(_disk, book)));
    }

    public void Dispose() => _shop.Dispose();

    private async Task CutAsync()
    {
        bool isDuringStart = _random.Next(OneDuringStartIn) == 0;
        if (isDuringStart)
        {
            _disk.CutAfter(_random.Next(20));
        }

        try
        {
            using var service = new PoweredService(_disk, _shop.Config, broker);
            await LoadAsync(service);
            _ = await service.StopAsync();
        }
        catch (IOException) when (_disk.IsDark)
        {
            DuringStart++;
        }

        _disk.Cut();
        _disk.Restore();
    }

    /// <summary>Sends to it until the power is gone, and a little longer.</summary>
    private async Task LoadAsync(PoweredService service)
    {
        _isGoing = false;
        Addresses addresses = await service.ReadyAsync();
        if (!_disk.IsDark)
        {
            await Crew.HeardAsync(addresses, () => Task.FromResult(service.HasHeard()));
            Starts++;
            Armed += await service.IsArmedAsync() ? 1 : 0;
        }

        using var ended = new CancellationTokenSource();
        Task load = _crew.WorkAsync(addresses, () => _isGoing || _disk.IsDark, ended.Token);
        await WaitAsync(TimeSpan.FromSeconds(_random.NextDouble()), load);
        _disk.CutAfter(_random.Next(200));
        await WaitAsync(TimeSpan.FromSeconds(1), load);
        _disk.Cut();
        _isGoing = true;
        ended.CancelAfter(TimeSpan.FromMilliseconds(200)); // what was on its way to the senders still arrives
        await load;
    }

    private async Task WaitAsync(TimeSpan howLong, Task load)
    {
        long since = TimeProvider.System.GetTimestamp();
        while (!_disk.IsDark && !load.IsCompleted && TimeProvider.System.GetElapsedTime(since) < howLong)
        {
            await Task.Delay(Step, TimeProvider.System);
        }
    }

    /// <summary>Two last starts: in the first everything open is told, in the second the book is level. Both are stopped as they should be.</summary>
    private async Task<int> SettleAsync()
    {
        using (var service = new PoweredService(_disk, _shop.Config, broker))
        {
            using var patience = new CancellationTokenSource(Patience, TimeProvider.System);
            await _crew.SettleAsync(await service.ReadyAsync(), patience.Token);
            while (broker is not null && !patience.IsCancellationRequested && _crew.Ledger.Acknowledged.Except(Audit.Of(_disk, PoweredService.Data).Keys).Any())
            {
                await Task.Delay(Step * 100, TimeProvider.System); // the broker has it, and brings it
            }

            _ = await service.StopAsync();
        }

        using var level = new PoweredService(_disk, _shop.Config, broker);
        _ = await level.ReadyAsync();
        await level.BookIsLevelAsync();
        return await level.StopAsync();
    }
}
