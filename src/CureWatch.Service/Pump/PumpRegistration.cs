using System.Collections.Immutable;
using CureWatch.Service.Journal;
using CureWatch.Service.Settings;

namespace CureWatch.Service.Pump;

/// <summary>Registers the pump and what hangs on it.</summary>
internal static class PumpRegistration
{
    /// <param name="services">Where to register.</param>
    /// <param name="folder">The data folder, held.</param>
    /// <param name="register">The state recovered from it.</param>
    /// <param name="end">Where its journal ends.</param>
    /// <param name="first">What the start journals.</param>
    /// <param name="segmentBytes">When a segment of the journal is full.</param>
    /// <param name="readingsPerSecond">How many readings of one probe are taken a second in the long run.</param>
    /// <param name="keys">The keys the state was recovered with; read anew where left out.</param>
    public static IServiceCollection AddPump(
        this IServiceCollection services, DataFolder folder, Register register, JournalEnd end, ImmutableArray<Entry> first,
        long segmentBytes = JournalWriter.UsualSegmentBytes, int readingsPerSecond = LimitSettings.UsualReadingsPerSecond, KeyStore? keys = null) => services
            .AddSingleton(new Inbox(readingsPerSecond))
            .AddSingleton<Troubles>()
            .AddSingleton<IFollower, DeviceClocks>()
            .AddSingleton<StartNeeds>()
            .AddSingleton(new Latest { Register = register })
            .AddSingleton(keys ?? new KeyStore(folder.Disk, folder.Keys))
            .AddSingleton(p => new StorageWatch(
                folder.Disk, folder.Journal, p.GetRequiredService<KeyStore>(), p.GetRequiredService<Troubles>(), p.GetRequiredService<TimeProvider>()))
            .AddSingleton(p => new PumpLoop(
                p.GetRequiredService<Inbox>(),
                p.GetRequiredService<Latest>(),
                register,
                new JournalWriter(folder.Disk, folder.Journal, new EntryCodec(p.GetRequiredService<KeyStore>()), end, segmentBytes),
                p.GetRequiredService<StorageWatch>(),
                p.GetRequiredService<TimeProvider>(),
                p.GetServices<IFollower>(),
                p.GetRequiredService<Troubles>(),
                p.GetRequiredService<ILogger<PumpLoop>>()))
            .AddHostedService(p => new PumpHost(p.GetRequiredService<PumpLoop>(), first, p.GetRequiredService<KeyStore>(), p.GetRequiredService<ILogger<PumpLoop>>()));

    /// <summary>Starts first of all services, and stops last.</summary>
    private sealed class PumpHost(PumpLoop pump, ImmutableArray<Entry> first, KeyStore keys, ILogger<PumpLoop> log) : IHostedService
    {
        public Task StartAsync(CancellationToken cancellationToken)
        {
            foreach (string file in keys.Misfits)
            {
                Log.KeyDoesNotFit(log, file);
            }

            if (keys.Lost > 0)
            {
                Log.KeysAreLost(log, keys.Lost, keys.Folder);
            }

            pump.Start(first);
            return Task.CompletedTask;
        }

        public Task StopAsync(CancellationToken cancellationToken) => Task.Run(pump.Stop, CancellationToken.None);
    }
}
