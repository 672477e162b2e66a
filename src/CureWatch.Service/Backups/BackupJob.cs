using Quartz;

namespace CureWatch.Service.Backups;

/// <summary>Looks each minute whether a backup is due. What is due, the newest backup and the clock say, so that none is missed by having been off.</summary>
[DisallowConcurrentExecution]
internal sealed class BackupJob(NightlyBackup backup, IHostApplicationLifetime lifetime) : IJob
{
    public static readonly JobKey Key = new("backup");

    public ValueTask Execute(IJobExecutionContext context, CancellationToken cancellationToken)
    {
        try
        {
            backup.Look(lifetime.ApplicationStopping);
        }
        catch (OperationCanceledException)
        {
            // The next start makes it.
        }

        return ValueTask.CompletedTask;
    }
}
