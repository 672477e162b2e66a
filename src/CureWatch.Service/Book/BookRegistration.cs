using CureWatch.Service.Disk;
using CureWatch.Service.Pump;

namespace CureWatch.Service.Book;

/// <summary>Registers the book.</summary>
internal static class BookRegistration
{
    /// <param name="services">Where to register; a <see cref="Latest"/>, an <see cref="IJournalSteps"/> and a clock have to be there.</param>
    /// <param name="disk">The disk.</param>
    /// <param name="folder">The folder of the book.</param>
    /// <param name="opening">How it was found; not refused.</param>
    /// <param name="journalLast">The number of the journal's last entry when it was opened.</param>
    public static IServiceCollection AddBook(
        this IServiceCollection services, IDisk disk, string folder, BookOpening opening, long journalLast) => services
        .AddSingleton(p => new BookKeeper(
            disk,
            folder,
            opening,
            journalLast,
            p.GetRequiredService<IJournalSteps>(),
            p.GetRequiredService<Latest>(),
            p.GetRequiredService<TimeProvider>(),
            p.GetRequiredService<ILogger<BookKeeper>>()))
        .AddSingleton<IFollower>(p => p.GetRequiredService<BookKeeper>())
        .AddHostedService(p => p.GetRequiredService<BookKeeper>());
}
