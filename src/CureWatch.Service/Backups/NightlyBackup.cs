using CureWatch.Bays;
using CureWatch.Service.Journal;
using CureWatch.Service.Pump;
using CureWatch.Service.Settings;
using CureWatch.Warnings;

namespace CureWatch.Service.Backups;

/// <summary>Makes the backup that is due, clears away what need not be kept, and says so where it cannot.</summary>
internal sealed class NightlyBackup(
    DataFolder data,
    string program,
    BackupSettings settings,
    Latest latest,
    Troubles troubles,
    BackupHealth health,
    TimeProvider clock,
    ILogger<NightlyBackup> log)
{
    private static readonly TimeSpan RetryAfter = TimeSpan.FromMinutes(15);

    private DateTimeOffset? _failedAt;

    /// <summary>Looks whether one is due, and if so makes it.</summary>
    public void Look(CancellationToken stopping)
    {
        DateTimeOffset now = clock.GetUtcNow();
        if (latest.Register.Shop is not { } shop || now - _failedAt < RetryAfter)
        {
            return;
        }

        var faults = new Faults();
        try
        {
            var shelf = new BackupShelf(data.Disk, settings.Folder, shop.Plan.Shop);
            health.Newest ??= shelf.All().FirstOrDefault(b => b.At <= now);
            if (health.Newest?.At < BackupHour.Last(now, settings.At, shop.Plan.Hours.Zone) || health.Newest is null)
            {
                shelf.Furnish();
                Make(shelf, shop, now, faults, stopping);
            }
        }
        catch (Exception e) when (e is IOException or UnauthorizedAccessException or ArgumentException)
        {
            faults.Add(settings.Folder, "folder", e.Message, "a folder that can be written");
        }

        Tell(faults, now);
    }

    private void Make(BackupShelf shelf, Shop shop, DateTimeOffset now, Faults faults, CancellationToken stopping)
    {
        string path = shelf.PathOf(now);
        if (Backup.Write(data.Disk, data.Path, path, program, now, faults, stopping) is not { } backup)
        {
            return;
        }

        health.Newest = new KeptBackup(path, now, backup.Bytes);
        Log.Made(log, path, backup.Bytes, backup.Manifest.Journal.Last);
        foreach (KeptBackup gone in shelf.Rotate(settings, shop.Plan.Hours.Zone, backup.Manifest.Journal.Id))
        {
            Log.Deleted(log, gone.Path);
        }
    }

    private void Tell(Faults faults, DateTimeOffset now)
    {
        if (faults.Count > 0)
        {
            string newest = health.Newest is { } kept ? $"the newest is of {UtcText.Of(kept.At)}" : "there is none yet";
            troubles.Raise(WarningKind.BackupTrouble, $"{faults.All[0]}; {newest}");
            Log.Failed(log, faults.All[0].ToString());
            _failedAt = now;
        }
        else if (_failedAt is not null)
        {
            troubles.Clear(WarningKind.BackupTrouble);
            _failedAt = null;
        }
    }
}
