using CureWatch.Service.Disk;
using CureWatch.Service.Journal;
using CureWatch.Service.Pump;

namespace CureWatch.Service.Backups;

/// <summary>Looks whether the keys on disk still open what the journal holds: a service that runs has read its own before, and would learn it at its next start.</summary>
/// <param name="data">The data folder.</param>
/// <param name="storage">Where it is told.</param>
/// <param name="rest">How long it waits after a piece was read.</param>
internal sealed class KeyRound(DataFolder data, StorageWatch storage, Func<int, CancellationToken, Task> rest)
{
    /// <summary>How much is read between two rests [bytes].</summary>
    private const int PieceBytes = 256 * 1024;

    /// <summary>The files that open nothing, as they were.</summary>
    private Dictionary<string, byte[]> _wrong = [];

    /// <summary>Whether any opens nothing, as far as was looked.</summary>
    public bool HasDamage => _wrong.Count > 0;

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

        _wrong = store.Misfits.ToDictionary(file => file, file => DurableFile.Read(data.Disk, file), StringComparer.Ordinal);
        storage.KeysAreWrong([.. _wrong.Keys]);
    }

    /// <summary>Looks again once a file that opened nothing is another.</summary>
    public async Task LookAgainAsync(CancellationToken cancelled)
    {
        if (_wrong.Any(w => !data.Disk.Exists(w.Key) || !DurableFile.Read(data.Disk, w.Key).AsSpan().SequenceEqual(w.Value)))
        {
            await LookAsync(cancelled).ConfigureAwait(false);
        }
    }
}
