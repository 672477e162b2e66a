namespace CureWatch.Service.Disk;

/// <summary>Small files and folders that are there whole, or not at all, whenever the power goes.</summary>
internal static class DurableFile
{
    /// <summary>What the name of a file ends with until it is whole; a start that was cut off may leave one.</summary>
    public const string Unfinished = ".new";

    /// <summary>Writes a new file; it is whole or not there at all, and what could not be finished takes no room.</summary>
    public static void Create(IDisk disk, string path, ReadOnlySpan<byte> bytes, bool isSecret = false)
    {
        string unfinished = path + Unfinished;
        try
        {
            using IDiskFile file = disk.Open(unfinished, isSecret ? FileUse.MakeSecret : FileUse.MakeAnew);
            file.Write(bytes, 0);
            file.Flush();
        }
        catch (IOException)
        {
            DeleteIfPossible(disk, unfinished);
            throw;
        }

        disk.Move(unfinished, path);
        disk.FlushFolder(Path.GetDirectoryName(path)!);
    }

    /// <summary>Reads a whole file, which its writer may have open.</summary>
    public static byte[] Read(IDisk disk, string path)
    {
        using IDiskFile file = disk.Open(path, FileUse.Read);
        byte[] bytes = new byte[file.Length];
        return file.Read(bytes, 0) is var read && read == bytes.Length ? bytes : bytes[..read];
    }

    /// <summary>Reads the beginning of a file.</summary>
    /// <returns>As many bytes, or all there are.</returns>
    public static byte[] ReadStart(IDisk disk, string path, int most)
    {
        using IDiskFile file = disk.Open(path, FileUse.Read);
        byte[] bytes = new byte[most];
        return bytes[..file.Read(bytes, 0)];
    }

    /// <summary>Makes a folder, and those above it, where there is none yet.</summary>
    public static void MakeFolder(IDisk disk, string path)
    {
        if (disk.Exists(path))
        {
            disk.MakeFolder(path); // which says so where it is a file
        }
        else
        {
            string above = Path.GetDirectoryName(Path.TrimEndingDirectorySeparator(Path.GetFullPath(path)))!;
            MakeFolder(disk, above);
            disk.MakeFolder(path);
            disk.FlushFolder(above);
        }
    }

    private static void DeleteIfPossible(IDisk disk, string path)
    {
        try
        {
            disk.Delete(path);
        }
        catch (Exception e) when (e is IOException or UnauthorizedAccessException)
        {
            // Whoever makes it next begins it anew.
        }
    }
}
