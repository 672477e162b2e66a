using CureWatch.Service.Backups;
using CureWatch.Service.Disk;
using CureWatch.Service.Settings;

namespace CureWatch.Service.Commands;

/// <summary>Tells a journal that has lost all its entries from one that never had any: by what only one with entries leaves beside it.</summary>
internal static class LostJournal
{
    private static readonly string[] Folders = ["journal", "keys", "photos", "snapshots"];

    /// <summary>Looks beside a journal without an entry.</summary>
    /// <param name="disk">The disk.</param>
    /// <param name="data">The data folder.</param>
    /// <returns>What is there that cannot be, were it a new one; null where nothing is.</returns>
    public static Fault? Trace(IDisk disk, string data)
    {
        foreach (string folder in Folders.Where(f => disk.Exists(Path.Combine(data, f))))
        {
            if (disk.NamesIn(Path.Combine(data, folder)).Order(StringComparer.Ordinal).FirstOrDefault(n => IsOfEntries($"{folder}/{n}")) is { } file)
            {
                return new Fault(
                    Path.Combine(data, folder, file),
                    "file",
                    "what only a journal with entries leaves",
                    "none beside a journal without an entry: it has lost them; restore a backup of the data folder, or begin in another");
            }
        }

        return null;
    }

    private static bool IsOfEntries(string name) => ArchiveNames.RoleOf(name) is "key" or "photo" or "snapshot" or "retirement";
}
