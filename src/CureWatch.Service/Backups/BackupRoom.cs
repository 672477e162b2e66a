using System.Globalization;
using CureWatch.Service.Disk;
using CureWatch.Service.Pump;

namespace CureWatch.Service.Backups;

/// <summary>Keeps room on the disk a backup is written to. It may be the journal's, and a journal without room takes nothing.</summary>
/// <param name="disk">The disk.</param>
/// <param name="folder">The folder of the backup.</param>
/// <param name="most">How long the backup may become [bytes].</param>
internal sealed class BackupRoom(IDisk disk, string folder, long most)
{
    /// <summary>How much is written between two looks [bytes]. Source (choice): little beside what is left free.</summary>
    private const long LookEvery = 8 << 20;

    private long _sinceLook = LookEvery;

    /// <summary>How much more has to be free for it to be made in any case [bytes]; 0 where there is enough.</summary>
    public long Lacking => Math.Max(0, StorageWatch.LittleBytes + LookEvery + most - Free());

    /// <summary>Told what is about to be written.</summary>
    /// <exception cref="IOException">It would leave less free than is warned of.</exception>
    public void Take(int bytes)
    {
        _sinceLook += bytes;
        if (_sinceLook < LookEvery)
        {
            return;
        }

        _sinceLook = 0;
        if (Free() is < StorageWatch.LittleBytes and var free)
        {
            throw new IOException(string.Create(CultureInfo.InvariantCulture, $"{free / 1_000_000} MB are free, and a backup leaves {StorageWatch.LittleBytes / 1_000_000} MB free: it takes up to {(most / 1_000_000) + 1} MB"));
        }
    }

    private long Free()
    {
        try
        {
            return disk.FreeBytes(folder);
        }
        catch (Exception e) when (e is IOException or UnauthorizedAccessException or ArgumentException) // a network share has no drive
        {
            return long.MaxValue; // whoever writes will see
        }
    }
}
