using CureWatch.Service.Disk;
using CureWatch.Service.Journal;
using CureWatch.Service.Settings;
using CureWatch.Service.Snapshots;

namespace CureWatch.Service.Commands;

/// <summary>Tells a journal that has lost all its entries from one that never had any: by what only one with entries leaves beside it.</summary>
internal static class LostJournal
{
    private const string Lost = "none, for the journal has no entry: it has lost them; restore a backup of the data folder";

    /// <summary>Looks beside a journal without an entry.</summary>
    /// <param name="disk">The disk.</param>
    /// <param name="data">The data folder.</param>
    /// <returns>What is there that cannot be, were it a new one; null where nothing is.</returns>
    public static Fault? Trace(IDisk disk, string data)
    {
        foreach ((string path, (byte[] JournalId, long Sequence)? taken) in new SnapshotFolder(disk, data).Look())
        {
            if (taken is { } whole)
            {
                return new Fault(path, "position", $"entry {whole.Sequence}", Lost);
            }
        }

        return LeftIn(disk, DataFolder.KeysOf(data)) ?? LeftIn(disk, DataFolder.PhotosOf(data));
    }

    private static Fault? LeftIn(IDisk disk, string folder) =>
        disk.Exists(folder) && DataFolder.Others(disk.NamesIn(folder)) is { } files ? new Fault(folder, "files", files, Lost) : null;
}
