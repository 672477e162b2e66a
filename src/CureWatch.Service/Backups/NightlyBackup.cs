using CureWatch.Bays;
using CureWatch.Service.Journal;
using CureWatch.Service.Pump;
using CureWatch.Service.Settings;
using CureWatch.Warnings;

namespace CureWatch.Service.Backups;

/// <summary>Makes the backup that is due, clears away what need not be kept, and says so where it cannot.</summary>
/// <param name="data">The data folder.</param>
/// <param name="program">The version of this program.</param>
/// <param name="storage">What is wanted; a backup is.</param>
/// <param name="latest">The newest state that is on disk.</param>
/// <param name="needed">Asks for the number of the oldest entry that somebody here may still read.</param>
/// <param name="wrongKey">Asks for a key that is not known to be the one it was: while there is one, nothing older is cleared away.</param>
/// <param name="troubles">Where it is told that no backup can be made.</param>
/// <param name="health">Where it is told how old the newest is.</param>
/// <param name="clock">The clock.</param>
/// <param name="log">Where it is told what was done.</param>
internal sealed class NightlyBackup(
    DataFolder data,
    string program,
    StorageSettings storage,
    Latest latest,
    Func<long> needed,
    Func<string?> wrongKey,
    Troubles troubles,
    BackupHealth health,
    TimeProvider clock,
    ILogger<NightlyBackup> log)
{
    private static readonly TimeSpan RetryAfter = TimeSpan.FromMinutes(15);

    private readonly BackupSettings _settings = storage.Backup ?? throw new ArgumentException("No backup is wanted.", nameof(storage));
    private readonly BackupMark _mark = new(data.Disk, data.Path, storage.Backup?.Folder ?? "");

    /// <summary>When it failed, on a clock that nobody sets.</summary>
    private long? _failedAt;

    /// <summary>What was backed up, until all that need not be kept any more is cleared away.</summary>
    private Manifest? _toTidy;

    /// <summary>The key in the newest that may be right in an older one only.</summary>
    private string? _wrongKey;

    /// <summary>Looks whether one is due, and if so makes it.</summary>
    public void Look(CancellationToken stopping)
    {
        DateTimeOffset now = clock.GetUtcNow();
        if (latest.Register.Shop is not { } shop || (_failedAt is { } failed && clock.GetElapsedTime(failed) < RetryAfter))
        {
            return;
        }

        var faults = new Faults();
        try
        {
            var shelf = new BackupShelf(data.Disk, _settings.Folder, shop.Plan.Shop);
            if (_mark.IsMeant(faults))
            {
                Keep(shelf, shop, now, faults, stopping);
            }
        }
        catch (Exception e) when (e is IOException or UnauthorizedAccessException or ArgumentException)
        {
            faults.Add(_settings.Folder, "folder", e.Message, "a folder that can be written");
        }

        Tell(faults);
    }

    private void Keep(BackupShelf shelf, Shop shop, DateTimeOffset now, Faults faults, CancellationToken stopping)
    {
        Believe(shelf, now);
        if (health.Newest?.At < BackupHour.Last(now, _settings.At, shop.Plan.Hours.Zone) || health.Newest is null)
        {
            _mark.Set();
            shelf.Furnish();
            Make(shelf, shop, now, faults, stopping);
        }

        if (_toTidy is { } backup && (_wrongKey ?? wrongKey()) is null)
        {
            Tidy(shelf, shop, now, backup, faults, stopping);
        }
    }

    /// <summary>A backup that is gone is none any more; one of a time that is yet to come is none yet: the clock was set back since.</summary>
    private void Believe(BackupShelf shelf, DateTimeOffset now)
    {
        if (health.Newest is { } newest && (newest.At > now || !data.Disk.Exists(newest.Path)))
        {
            Log.NotTheNewest(log, newest.Path);
            health.Newest = null;
        }

        health.Newest ??= shelf.All().FirstOrDefault(b => b.At <= now);
    }

    private void Make(BackupShelf shelf, Shop shop, DateTimeOffset now, Faults faults, CancellationToken stopping)
    {
        string path = shelf.PathOf(now);
        string? wrong = null;
        if (Backup.Write(data.Disk, data.Path, path, program, now, faults, content => wrong = MakeRoom(shelf, shop, now, content), stopping) is { } backup)
        {
            (health.Newest, _toTidy, _wrongKey) = (new KeptBackup(path, now, backup.Bytes), backup.Manifest, wrong);
            Log.Made(log, path, backup.Bytes, backup.Manifest.Journal.Last);
        }
    }

    /// <summary>A disk that is full of backups would never take the next. But the older ones stay while a key may be right in one of them only.</summary>
    /// <returns>That key; null where there is none.</returns>
    private string? MakeRoom(BackupShelf shelf, Shop shop, DateTimeOffset now, BackupContent content)
    {
        if ((content.WrongKey ?? wrongKey()) is { } wrong)
        {
            Log.AllStay(log, wrong);
            return wrong;
        }

        long most = health.Newest is { } newest && Archive.ManifestOf(data.Disk, newest.Path) is { } before
            ? Math.Min(content.Bytes, newest.Bytes + Math.Max(0, content.Bytes - before.Files.Sum(f => f.Bytes))) // what has come since may be photos, which get no shorter
            : content.Bytes;
        long lacking = new BackupRoom(data.Disk, _settings.Folder, most).Lacking;
        foreach (KeptBackup gone in lacking > 0 ? shelf.LetGo(_settings, shop.Plan.Hours.Zone, content.Journal.Id, now, lacking) : [])
        {
            Log.LetGo(log, gone.Path, gone.Bytes);
        }

        return null;
    }

    private void Tidy(BackupShelf shelf, Shop shop, DateTimeOffset now, Manifest backup, Faults faults, CancellationToken stopping)
    {
        foreach (KeptBackup gone in shelf.Rotate(_settings, shop.Plan.Hours.Zone, backup.Journal.Id, now))
        {
            Log.Deleted(log, gone.Path);
        }

        if (storage.KeepJournal is { } keep)
        {
            Retire(shelf, shop, now - keep, backup, faults, stopping);
        }

        _toTidy = faults.Count > 0 ? backup : null;
    }

    /// <summary>A car that is here keeps all since it came: people look back at its day, and take it with them as a folder to replay.</summary>
    private void Retire(BackupShelf shelf, Shop shop, DateTimeOffset before, Manifest backup, Faults faults, CancellationToken stopping)
    {
        DateTimeOffset limit = shop.JobsInOrder.Where(j => j.LeftAt is null).Select(j => latest.Register.Jobs[j.Job.Id].StartedAt).Append(before).Min();
        if (new Retirement(data.Disk, data.Journal, shelf, faults).Run(backup, needed(), limit, stopping) is { } retired)
        {
            Log.Retired(log, retired.First, retired.Last, shelf.PathOf(retired.Archive));
        }
    }

    private void Tell(Faults faults)
    {
        if (faults.Count > 0)
        {
            string newest = health.Newest is { } kept ? $"the newest is of {UtcText.Of(kept.At)}" : "none is there";
            troubles.Raise(WarningKind.BackupTrouble, $"{faults.All[0]}; {newest}");
            Log.Failed(log, faults.All[0].ToString());
            _failedAt = clock.GetTimestamp();
        }
        else if (_failedAt is not null)
        {
            troubles.Clear(WarningKind.BackupTrouble);
            _failedAt = null;
        }
    }
}
