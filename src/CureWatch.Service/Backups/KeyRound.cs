using CureWatch.Service.Disk;
using CureWatch.Service.Journal;
using CureWatch.Service.Pump;
using CureWatch.Service.Settings;

namespace CureWatch.Service.Backups;

/// <summary>
/// Looks whether the keys on disk still open what the journal holds, and are those that this service has read: one that runs would learn it at its
/// next start.
/// </summary>
/// <param name="data">The data folder.</param>
/// <param name="keys">The keys of this service.</param>
/// <param name="backup">How nightly backups are made; null where none are.</param>
/// <param name="latest">The newest state, for the shop's name.</param>
/// <param name="storage">Where it is told.</param>
/// <param name="rest">How long it waits after a piece was read.</param>
internal sealed class KeyRound(DataFolder data, KeyStore keys, BackupSettings? backup, Latest latest, StorageWatch storage, Func<int, CancellationToken, Task> rest)
{
    /// <summary>How much is read between two rests [bytes].</summary>
    private const int PieceBytes = 256 * 1024;

    /// <summary>The files that are not the keys they were, as they are.</summary>
    private Dictionary<string, byte[]> _wrong = [];

    /// <summary>Whether any is not the key it was, as far as was looked, or could not be had since.</summary>
    public bool HasDamage => _wrong.Count > 0 || storage.LacksKeys;

    /// <summary>Looks at all that is sealed; of a damaged journal at what is before the damage.</summary>
    public async Task LookAsync(CancellationToken cancelled)
    {
        var store = new KeyStore(data.Disk, data.Keys);
        var codec = new EntryCodec(store);
        int read = 0;
        foreach (Frame frame in new JournalReader(data.Disk, data.Journal).Frames())
        {
            KeyCheck.Open(codec, frame);
            read += frame.Payload.Length;
            if (read >= PieceBytes)
            {
                await rest(read, cancelled).ConfigureAwait(false);
                read = 0;
            }
        }

        (string File, KeyStore By)[] wrong =
            [.. keys.Wrong().Select(file => (File: file, By: keys)).Concat(store.Misfits.Select(file => (File: file, By: store))).DistinctBy(w => w.File)];
        _wrong = wrong.ToDictionary(w => w.File, w => DurableFile.Read(data.Disk, w.File), StringComparer.Ordinal);
        storage.KeysAreWrong([.. wrong.Select(w => w.File)], wrong is [var first, ..] ? HolderOf(first.File, first.By) : null);
    }

    /// <summary>Looks again once a file that was wrong is another, or one is asked for that was not wrong before.</summary>
    public async Task LookAgainAsync(CancellationToken cancelled)
    {
        if (!_wrong.All(IsAsItWas) || (storage.LacksKeys && keys.Wrong().Any(file => !_wrong.ContainsKey(file))))
        {
            await LookAsync(cancelled).ConfigureAwait(false);
        }
    }

    private bool IsAsItWas(KeyValuePair<string, byte[]> wrong) =>
        data.Disk.Exists(wrong.Key) && DurableFile.Read(data.Disk, wrong.Key).AsSpan().SequenceEqual(wrong.Value);

    /// <returns>The newest nightly backup whose key opens what this one does not; null where none is there.</returns>
    private string? HolderOf(string file, KeyStore asked)
    {
        if (backup is null || latest.Register.Shop is not { } shop)
        {
            return null;
        }

        string name = SourceFile.NameOf(data.Path, file);
        return Readable(() => new BackupShelf(data.Disk, backup.Folder, shop.Plan.Shop).All())?
            .FirstOrDefault(b => Readable(() => Archive.FileIn(data.Disk, b.Path, name)) is { } secret && asked.Fits(file, secret))?.Path;
    }

    /// <returns>Null where the disk does not give it: a backup after it may do.</returns>
    private static T? Readable<T>(Func<T?> read)
        where T : class
    {
        try
        {
            return read();
        }
        catch (Exception e) when (e is IOException or UnauthorizedAccessException or ArgumentException)
        {
            return null;
        }
    }
}
