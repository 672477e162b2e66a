namespace CureWatch.Service.Backups;

/// <summary>Looks each minute whether a backup is due. What is due, the newest backup and the clock say, so that none is missed by having been off.</summary>
/// <remarks>The minute is the machine's: a clock that is set back moves no look out of sight.</remarks>
internal sealed class BackupRounds(NightlyBackup backup, ILogger<BackupRounds> log) : BackgroundService
{
    private static readonly TimeSpan LookEvery = TimeSpan.FromMinutes(1);

    protected override async Task ExecuteAsync(CancellationToken stoppingToken)
    {
        await Task.Yield(); // a start waits for nobody here
        using var timer = new PeriodicTimer(LookEvery, TimeProvider.System);
        do
        {
            Look(stoppingToken); // what is cut off by the end, the next start makes
        }
        while (await timer.WaitForNextTickAsync(stoppingToken).ConfigureAwait(false));
    }

    private void Look(CancellationToken stopping)
    {
        try
        {
            backup.Look(stopping);
        }
#pragma warning disable CA1031 // what cannot be looked at now is looked at in a minute
        catch (Exception e) when (e is not OperationCanceledException)
#pragma warning restore CA1031
        {
            Log.NotKept(log, e);
        }
    }
}
