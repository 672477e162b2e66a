using CureWatch.Service.Disk;

namespace CureWatch.Service.Backups;

/// <summary>A file of a data folder that goes into a backup.</summary>
/// <param name="Name">Its path below the data folder, with slashes.</param>
/// <param name="Path">Where it is.</param>
/// <param name="Bytes">How much of it counts.</param>
internal sealed record SourceFile(string Name, string Path, long Bytes)
{
    public static SourceFile Of(IDisk disk, string data, string path)
    {
        using IDiskFile file = disk.Open(path, FileUse.Read);
        return new SourceFile(NameOf(data, path), path, file.Length);
    }

    public static string NameOf(string data, string path) => System.IO.Path.GetRelativePath(data, path).Replace('\\', '/');
}
