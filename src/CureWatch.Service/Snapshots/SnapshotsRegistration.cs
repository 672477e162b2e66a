using CureWatch.Service.Journal;
using CureWatch.Service.Pump;

namespace CureWatch.Service.Snapshots;

/// <summary>Puts together what takes snapshots, and what reads the journal from them on.</summary>
internal static class SnapshotsRegistration
{
    /// <param name="services">Where to register; the pump is there already, so that it stops after this.</param>
    /// <param name="folder">The data folder, held.</param>
    public static IServiceCollection AddSnapshots(this IServiceCollection services, DataFolder folder) => services
        .AddSingleton(new SnapshotFolder(folder.Disk, folder.Path))
        .AddSingleton<IJournalSteps>(new JournalSteps(folder))
        .AddHostedService<SnapshotKeeper>();
}
