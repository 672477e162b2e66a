using CureWatch.Service.Book;
using CureWatch.Service.Commands;
using CureWatch.Service.Disk;
using CureWatch.Service.Journal;
using CureWatch.Service.Pump;
using CureWatch.Service.Settings;
using CureWatch.Service.Snapshots;
using Microsoft.Extensions.Logging.Abstractions;

namespace CureWatch.Service.Tests.Disk;

/// <summary>The service from one start to its end, on any disk and without its ways in: data folder, pump and book.</summary>
internal sealed class Life : IDisposable
{
    private readonly DataFolder _folder;
    private readonly StorageWatch _storage;
    private readonly PumpLoop _pump;
    private readonly BookKeeper _book;

    /// <summary>Starts, as the program does.</summary>
    /// <exception cref="IOException">It cannot.</exception>
    public Life(IDisk disk, string config, TimeProvider clock, long segmentBytes = 20_000)
    {
        var faults = new Faults();
        _folder = DataFolder.Hold(disk, Data, isDemo: false, faults) ?? throw new IOException(faults.All[0].ToString());
        try
        {
            Recovered recovered = Recovered.From(_folder, config, isForced: false, faults) ?? throw new IOException(faults.All[0].ToString());
            Opening = BookOpening.Of(disk, _folder.Book, recovered.End.Last);
            if (Opening is BookOpening.Refused refused)
            {
                throw new IOException(refused.Fault.ToString());
            }

            Troubles = new Troubles(clock);
            Latest = new Latest { Register = recovered.Register };
            var keys = new KeyStore(disk, _folder.Keys);
            _storage = new StorageWatch(disk, _folder.Journal, keys, Troubles, clock);
            _book = new BookKeeper(
                disk, _folder.Book, Opening, recovered.End.Last, new JournalSteps(_folder), Latest, clock, NullLogger<BookKeeper>.Instance);
            _pump = new PumpLoop(
                Inbox,
                Latest,
                recovered.Register,
                new JournalWriter(disk, _folder.Journal, new EntryCodec(keys), recovered.End, segmentBytes),
                _storage,
                clock,
                [_book],
                Troubles,
                NullLogger<PumpLoop>.Instance);
            _pump.Start(recovered.First);
            _ = _book.StartAsync(CancellationToken.None);
        }
        catch
        {
            End();
            throw;
        }
    }

    public const string Data = "/data";

    public static string Journal => DataFolder.JournalOf(Data);

    public static string Book => DataFolder.BookOf(Data);

    public BookOpening Opening { get; }

    public Inbox Inbox { get; } = new();

    public Latest Latest { get; }

    public Troubles Troubles { get; }

    public Task<BookAnswer<T>> AskBookAsync<T>(Func<BookQueries, T> question) => _book.AskAsync(question);

    /// <summary>Stops as the program does.</summary>
    public async Task StopAsync()
    {
        _pump.Stop();
        await _book.StoppedAsync(CancellationToken.None);
    }

    public void Dispose()
    {
        _pump.Stop();
        End();
    }

    private void End()
    {
        _book?.Dispose();
        if (_book is null && Opening is BookOpening.Found found)
        {
            found.File.Dispose();
        }

        _pump?.Dispose();
        _storage?.Dispose();
        _folder.Dispose();
    }
}
