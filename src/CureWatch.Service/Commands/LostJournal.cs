using CureWatch.Service.Backups;
using CureWatch.Service.Disk;
using CureWatch.Service.Journal;
using CureWatch.Service.Settings;

namespace CureWatch.Service.Commands;

/// <summary>Tells a journal that has lost all its entries from one that never had any: by what only one with entries leaves beside it.</summary>
internal static class LostJournal
{
    /// <summary>Looks beside a journal without an entry.</summary>
    /// <param name="disk">The disk.</param>
    /// <param name="data">The data folder.</param>
    /// <returns>What is there that cannot be, were it a new one; null where nothing is.</returns>
    public static Fault? Trace(IDisk disk, string data)
    {
        string[] folders = [DataFolder.JournalOf(data), DataFolder.KeysOf(data), DataFolder.PhotosOf(data), DataFolder.SnapshotsOf(data)];
        string? left = folders.Where(disk.Exists).SelectMany(f => disk.NamesIn(f).Select(name => Path.Combine(f, name)))
            .FirstOrDefault(path => ArchiveNames.RoleOf(SourceFile.NameOf(data, path)) is "key" or "photo" or "snapshot" or "retirement");
        return left is null ? null : new Fault(
            left,
            "file",
            "what only a journal with entries leaves",
            "none beside a journal without an entry: it has lost them; restore a backup of the data folder, or begin in another");
    }
}
