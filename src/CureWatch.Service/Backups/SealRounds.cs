using CureWatch.Service.Book;
using CureWatch.Service.Pump;
using CureWatch.Service.Settings;

namespace CureWatch.Service.Backups;

/// <summary>Has the full segments of the journal, the book and the keys looked at after a start and every night, and what was damaged again after minutes.</summary>
/// <remarks>It waits on the machine's time, since nothing is decided here; which night it is the shop's clock says.</remarks>
internal sealed class SealRounds(
    SealWatch watch, PageRound pages, KeyRound keys, StorageSettings storage, Latest latest, TimeProvider clock, ILogger<SealRounds> log) : BackgroundService
{
    /// <summary>How much is read a second [bytes]. Source (choice): a year of ten bays in some minutes, beside which a card's other work goes on.</summary>
    private const double BytesPerSecond = 8_000_000;

    private static readonly TimeSpan LookEvery = TimeSpan.FromMinutes(1);

    /// <summary>Whoever puts a file back wants to see that it helped. Source (choice).</summary>
    private static readonly TimeSpan AgainAfter = TimeSpan.FromMinutes(5);

    /// <summary>When it is night, where no hour of backups says so. Source (choice).</summary>
    private static readonly TimeOnly UsualHour = new(3, 0);

    /// <summary>Waits as long as a piece may have taken.</summary>
    public static Task RestAsync(int bytes, CancellationToken cancelled) =>
        Task.Delay(TimeSpan.FromSeconds(bytes / BytesPerSecond), TimeProvider.System, cancelled);

    protected override async Task ExecuteAsync(CancellationToken stoppingToken)
    {
        await Task.Yield(); // a start waits for nobody here
        DateTimeOffset allAt = await RoundAsync(LookAtAllAsync, stoppingToken).ConfigureAwait(false), damagedAt = allAt;
        using var timer = new PeriodicTimer(LookEvery, TimeProvider.System);
        while (await timer.WaitForNextTickAsync(stoppingToken).ConfigureAwait(false))
        {
            DateTimeOffset now = clock.GetUtcNow();
            TimeZoneInfo zone = latest.Register.Shop?.Plan.Hours.Zone ?? TimeZoneInfo.Utc;
            if (allAt < BackupHour.Last(now, storage.Backup?.At ?? UsualHour, zone))
            {
                damagedAt = allAt = await RoundAsync(LookAtAllAsync, stoppingToken).ConfigureAwait(false);
            }
            else if ((watch.HasDamage || keys.HasDamage) && (now - damagedAt).Duration() >= AgainAfter)
            {
                damagedAt = await RoundAsync(LookAgainAsync, stoppingToken).ConfigureAwait(false);
            }
        }
    }

    private async Task LookAtAllAsync(CancellationToken stopping)
    {
        await watch.LookAsync(stopping).ConfigureAwait(false);
        await pages.LookAsync(stopping).ConfigureAwait(false);
        await keys.LookAsync(stopping).ConfigureAwait(false);
    }

    private async Task LookAgainAsync(CancellationToken stopping)
    {
        await watch.LookAgainAsync(stopping).ConfigureAwait(false);
        await keys.LookAgainAsync(stopping).ConfigureAwait(false);
    }

    /// <returns>When it was begun.</returns>
    private async Task<DateTimeOffset> RoundAsync(Func<CancellationToken, Task> look, CancellationToken stopping)
    {
        DateTimeOffset begun = clock.GetUtcNow();
        try
        {
            await look(stopping).ConfigureAwait(false);
        }
#pragma warning disable CA1031 // what cannot be looked at now is looked at next time
        catch (Exception e) when (e is not OperationCanceledException)
#pragma warning restore CA1031
        {
            Log.NotLooked(log, e);
        }

        return begun;
    }
}
