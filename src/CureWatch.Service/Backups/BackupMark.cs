using System.Text;
using CureWatch.Service.Disk;
using CureWatch.Service.Settings;

namespace CureWatch.Service.Backups;

/// <summary>
/// Knows the folder of the backups again by a file in it: where its disk is not mounted there is an empty one of the same name, on a disk that is
/// not meant. Which folder was used is kept in the data folder.
/// </summary>
/// <param name="disk">The disk, or disks.</param>
/// <param name="data">The data folder.</param>
/// <param name="folder">The folder of the backups.</param>
internal sealed class BackupMark(IDisk disk, string data, string folder)
{
    public const string Name = "curewatch-backups.txt";
    private const string UsedName = "backup-folder";

    private bool _isUsed;

    private string Used => Path.Combine(data, UsedName);

    private string Mark => Path.Combine(folder, Name);

    /// <summary>Whether the folder is new here, or the one that was used before; if not, that is a fault.</summary>
    public bool IsMeant(Faults faults)
    {
        bool isMeant = !IsUsed() || disk.Exists(Mark);
        if (!isMeant)
        {
            faults.Add(folder, "folder", $"no {Name}", "the folder as it was used before: its disk may not be mounted; where this one is meant, put an empty file of that name into it");
        }

        return isMeant;
    }

    /// <summary>Makes a new folder, and marks it.</summary>
    /// <exception cref="IOException">It cannot be made, or marked.</exception>
    public void Set()
    {
        if (IsUsed())
        {
            return;
        }

        DurableFile.MakeFolder(disk, folder);
        if (!disk.Exists(Mark))
        {
            DurableFile.Create(disk, Mark, "By this file the service knows the folder of its backups: leave it here.\n"u8);
        }

        disk.Delete(Used);
        DurableFile.Create(disk, Used, Encoding.UTF8.GetBytes(Path.GetFullPath(folder)));
        _isUsed = true;
    }

    private bool IsUsed() => _isUsed = _isUsed
        || (disk.Exists(Used) && string.Equals(Encoding.UTF8.GetString(DurableFile.Read(disk, Used)).Trim(), Path.GetFullPath(folder), StringComparison.Ordinal));
}
