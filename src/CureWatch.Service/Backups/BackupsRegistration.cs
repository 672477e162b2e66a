using CureWatch.Service.Book;
using CureWatch.Service.Journal;
using CureWatch.Service.Pump;
using CureWatch.Service.Settings;

namespace CureWatch.Service.Backups;

/// <summary>Registers the watch over the full segments of the journal, and the nightly backup, where one is wanted.</summary>
internal static class BackupsRegistration
{
    /// <param name="services">Where to register; the pump and a <see cref="BackupHealth"/> have to be there.</param>
    /// <param name="data">The data folder.</param>
    /// <param name="program">The version of this program.</param>
    /// <param name="settings">What is wanted.</param>
    /// <param name="clock">The only clock that decides anything.</param>
    public static IServiceCollection AddBackups(
        this IServiceCollection services, DataFolder data, string program, StorageSettings settings, TimeProvider clock)
    {
        services
            .AddSingleton(p => new SealWatch(
                data,
                settings.Backup,
                p.GetRequiredService<Latest>(),
                p.GetRequiredService<Troubles>(),
                SealRounds.RestAsync,
                p.GetRequiredService<ILogger<SealWatch>>()))
            .AddHostedService(p => new SealRounds(
                p.GetRequiredService<SealWatch>(),
                new PageRound(p.GetRequiredService<BookKeeper>(), SealRounds.RestAsync),
                new KeyRound(
                    data, p.GetRequiredService<KeyStore>(), settings.Backup, p.GetRequiredService<Latest>(), p.GetRequiredService<StorageWatch>(), SealRounds.RestAsync),
                settings,
                p.GetRequiredService<Latest>(),
                clock,
                p.GetRequiredService<ILogger<SealRounds>>()));
        return settings.Backup is null
            ? services
            : services
                .AddSingleton(p => new NightlyBackup(
                    data,
                    program,
                    settings,
                    p.GetRequiredService<Latest>(),
                    () => Math.Min(p.GetRequiredService<StartNeeds>().From, Booked(p.GetRequiredService<BookKeeper>()) + 1),
                    p.GetRequiredService<StorageWatch>().WrongKey,
                    p.GetRequiredService<Troubles>(),
                    p.GetRequiredService<BackupHealth>(),
                    clock,
                    p.GetRequiredService<ILogger<NightlyBackup>>()))
                .AddHostedService<BackupRounds>();
    }

    /// <returns>How far the book is; 0 while it has yet to catch up, or is away: then it may read all of the journal once more.</returns>
    private static long Booked(BookKeeper book) =>
        book.AskAsync(b => b.Position.Sequence).GetAwaiter().GetResult() is BookAnswer<long>.Told { IsBehind: false } told ? told.Value : 0;
}
