using System.Globalization;
using System.Security.Cryptography;
using CureWatch.Service.Disk;
using CureWatch.Service.Journal;
using CureWatch.Service.Pump;

namespace CureWatch.Service.Photos;

/// <summary>The pictures of a data folder, each a file that is named by the SHA-256 of its bytes, so that one that changed is known.</summary>
/// <param name="disk">The disk.</param>
/// <param name="data">The data folder.</param>
internal sealed class PhotoShelf(IDisk disk, string data)
{
    private string Folder => DataFolder.PhotosOf(data);

    /// <summary>The name of a picture.</summary>
    public static string NameOf(ReadOnlySpan<byte> jpeg) => Convert.ToHexStringLower(SHA256.HashData(jpeg));

    /// <summary>Writes a picture, so that it lasts.</summary>
    /// <returns>Why not; null where it is on disk.</returns>
    public string? Keep(string name, ReadOnlySpan<byte> jpeg)
    {
        string path = PathOf(name);
        try
        {
            DurableFile.MakeFolder(disk, Folder);
            long free = disk.FreeBytes(Folder) - jpeg.Length;
            if (free < StorageWatch.LittleBytes)
            {
                long left = Math.Max(0, free / 1_000_000);
                return string.Create(CultureInfo.InvariantCulture, $"the disk is nearly full, and what is left of it is for the record ({left} MB)");
            }

            if (Find(name) is null)
            {
                disk.Delete(path); // one that is damaged
                DurableFile.Create(disk, path, jpeg, isSecret: true);
            }

            return null;
        }
        catch (Exception e) when (e is IOException or UnauthorizedAccessException)
        {
            Clear(path);
            return e.Message;
        }
    }

    /// <summary>Reads a picture.</summary>
    /// <returns>Its bytes; null where it is not there, or not what was written.</returns>
    public byte[]? Find(string name)
    {
        try
        {
            byte[]? jpeg = disk.Exists(PathOf(name)) ? DurableFile.Read(disk, PathOf(name)) : null;
            return jpeg is not null && NameOf(jpeg) == name ? jpeg : null;
        }
        catch (Exception e) when (e is IOException or UnauthorizedAccessException)
        {
            return null;
        }
    }

    /// <summary>Takes a picture away, if it is there.</summary>
    public void Remove(string name)
    {
        if (disk.Exists(PathOf(name)))
        {
            disk.Delete(PathOf(name));
            disk.FlushFolder(Folder);
        }
    }

    /// <summary>Every picture that should be there and is not what was written, as a line for a person.</summary>
    public IEnumerable<string> Damages(Register register) =>
        from job in register.Jobs.OrderBy(j => j.Key, StringComparer.Ordinal)
        from kept in job.Value.Photos
        where kept.Removed is null && Find(kept.Photo.Sha256) is null
        let path = PathOf(kept.Photo.Sha256)
        select $"{path}: {(disk.Exists(path) ? "it is not what was written" : "it is missing")}; a photo of the job {job.Key}";

    private string PathOf(string name) => Path.Combine(Folder, $"{name}.jpg");

    /// <summary>Nothing half written stays; what cannot be removed now is by whoever keeps a picture next, or starts.</summary>
    private void Clear(string path)
    {
        try
        {
            disk.Delete(path + DurableFile.Unfinished);
        }
        catch (Exception e) when (e is IOException or UnauthorizedAccessException)
        {
            // Why it is not kept is said already.
        }
    }

    /// <summary>Removes what a start that was cut off left: pictures that were to be taken away, and unfinished ones.</summary>
    public void Tidy(Register register)
    {
        if (!disk.Exists(Folder))
        {
            return;
        }

        ILookup<string, bool> wanted = register.Jobs.Values.SelectMany(j => j.Photos)
            .ToLookup(p => p.Photo.Sha256, p => p.Removed is null, StringComparer.Ordinal);
        foreach (string file in disk.NamesIn(Folder))
        {
            bool isUnfinished = file.EndsWith(DurableFile.Unfinished, StringComparison.Ordinal);
            string name = Path.GetFileNameWithoutExtension(file);
            if (isUnfinished || (wanted.Contains(name) && !wanted[name].Contains(true)))
            {
                disk.Delete(Path.Combine(Folder, file));
            }
        }
    }
}
