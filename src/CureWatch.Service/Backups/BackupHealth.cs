using System.Text.Json;
using CureWatch.Service.Documents;
using CureWatch.Service.Settings;

namespace CureWatch.Service.Backups;

/// <summary>How old the newest nightly backup is, for everyone who shows it.</summary>
internal sealed class BackupHealth(ServiceSettings settings, TimeProvider clock)
{
    private volatile KeptBackup? _newest;

    /// <summary>Whether there are to be nightly backups.</summary>
    public bool IsWanted => settings.Storage.Backup is not null;

    /// <summary>The newest one that was read back; null while there is none.</summary>
    public KeptBackup? Newest
    {
        get => _newest;
        set => _newest = value;
    }

    /// <summary>Writes into an object that is open.</summary>
    public void Write(Utf8JsonWriter json)
    {
        if (!IsWanted)
        {
            json.WriteNull("backup");
            return;
        }

        KeptBackup? newest = Newest;
        TimeSpan? age = newest is null ? null : TimeSpan.FromSeconds(Math.Floor((clock.GetUtcNow() - newest.At).TotalSeconds));
        json.WriteStartObject("backup");
        json.WriteInstant("at", newest?.At);
        json.WriteString("age", age?.ToString("c"));
        json.WriteString("file", newest is null ? null : Path.GetFileName(newest.Path));
        json.WriteWhole("bytes", newest?.Bytes);
        json.WriteEndObject();
    }
}
