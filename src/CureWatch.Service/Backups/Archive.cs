using System.IO.Compression;
using CureWatch.Service.Disk;
using CureWatch.Service.Settings;

namespace CureWatch.Service.Backups;

/// <summary>A backup that is read, whoever wrote it: nothing in it is believed before it was held against what a backup may be.</summary>
internal sealed class Archive : IDisposable
{
    /// <summary>A key a job, and ten jobs a day for half a century. Source (choice).</summary>
    public const int MostEntries = 200_000;

    /// <summary>What an entry takes in the list of a zip file at most, with a name and an extra field as this program writes them [bytes].</summary>
    private const int MostBytesAnEntry = 200;

    private readonly string _path;
    private readonly IDiskFile _file;
    private readonly ZipArchive _zip;
    private readonly Dictionary<string, ZipArchiveEntry> _entries;

    private Archive(string path, IDiskFile file, ZipArchive zip, Dictionary<string, ZipArchiveEntry> entries, Manifest manifest, string sha256) =>
        (_path, _file, _zip, _entries, Manifest, Sha256) = (path, file, zip, entries, manifest, sha256);

    public Manifest Manifest { get; }

    /// <summary>How long it is.</summary>
    public long Bytes => _file.Length;

    /// <summary>The digest at its end, by which one backup is told from another.</summary>
    public string Sha256 { get; }

    /// <summary>Opens a backup and looks at everything but the content of its files.</summary>
    /// <param name="disk">The disk.</param>
    /// <param name="path">The file.</param>
    /// <param name="faults">Where it is said what is wrong, and where in it.</param>
    /// <returns>The backup; null where it is none, or not what was written.</returns>
    public static Archive? Open(IDisk disk, string path, Faults faults)
    {
        int before = faults.Count;
        Archive? archive = Opened(disk, path, faults, isDigestHeld: true);
        if (faults.Count == before)
        {
            return archive;
        }

        archive?.Dispose();
        return null;
    }

    /// <returns>What a backup says of itself, whether or not it is whole; null where it says nothing that could be read.</returns>
    public static Manifest? ManifestOf(IDisk disk, string path)
    {
        using Archive? archive = Opened(disk, path, new Faults(), isDigestHeld: false);
        return archive?.Manifest;
    }

    /// <returns>The content of a file, held against its own digest alone; null where there is none, or it is not what was written.</returns>
    public static byte[]? FileIn(IDisk disk, string path, string name)
    {
        var faults = new Faults();
        using Archive? archive = Opened(disk, path, faults, isDigestHeld: false);
        using var content = new MemoryStream();
        return archive?.Manifest.Files.FirstOrDefault(f => f.Name == name) is { } file && archive.Read(file, content, faults) ? content.ToArray() : null;
    }

    /// <summary>Copies the content of a file, and not a byte more than its manifest tells.</summary>
    /// <returns>Whether it is what was written.</returns>
    public bool Read(ArchivedFile file, Stream into, Faults faults)
    {
        try
        {
            using Stream content = _entries[file.Name].Open();
            (long bytes, string sha256) = Copy.Of(content, into, file.Bytes + 1);
            string? seen = bytes > file.Bytes ? $"more than {file.Bytes} bytes"
                : bytes < file.Bytes ? $"{bytes} bytes"
                : sha256 != file.Sha256 ? $"SHA-256 {sha256}"
                : null;
            if (seen is null)
            {
                return true;
            }

            faults.Add(_path, ArchiveListing.Place(file.Name), seen, $"{file.Bytes} bytes with the SHA-256 {file.Sha256}");
        }
        catch (Exception e) when (e is InvalidDataException or EndOfStreamException or NotSupportedException)
        {
            faults.Add(_path, ArchiveListing.Place(file.Name), e.Message, "what was written");
        }

        return false;
    }

    /// <summary>Reads every file, and keeps nothing of it.</summary>
    /// <returns>Whether all of it is what was written; every file that is not is named.</returns>
    public bool ReadAll(Faults faults)
    {
        int before = faults.Count;
        foreach (ArchivedFile file in Manifest.Files)
        {
            _ = Read(file, Stream.Null, faults);
        }

        return faults.Count == before;
    }

    public void Dispose()
    {
        _zip.Dispose();
        _file.Dispose();
    }

    private static Archive? Opened(IDisk disk, string path, Faults faults, bool isDigestHeld)
    {
        IDiskFile? file = null;
        Archive? archive = null;
        try
        {
            file = disk.Open(path, FileUse.Read);
            var stream = new DiskStream(file, canWrite: false);
            if (ArchiveSeal.Of(stream) is not { } sha256)
            {
                faults.Add(path, "end of file", "no end of a backup", "a whole backup of this program");
                return null;
            }

            archive = Parsed(path, file, stream, sha256, faults);
            if (isDigestHeld && ArchiveSeal.DigestBeforeIt(stream) != sha256 && archive?.ReadAll(faults) != false)
            {
                faults.Add(path, "between the entries", "bytes that are not what was written", $"a file with the SHA-256 {sha256} up to these digits");
            }
        }
        catch (Exception e) when (e is IOException or UnauthorizedAccessException or ArgumentException)
        {
            string seen = e is FileNotFoundException or DirectoryNotFoundException ? "no such file" : e.Message;
            faults.Add(path, "file", seen, "a backup of this program that can be read");
        }
        finally
        {
            if (archive is null)
            {
                file?.Dispose();
            }
        }

        return archive;
    }

    private static Archive? Parsed(string path, IDiskFile file, DiskStream stream, string sha256, Faults faults)
    {
        try
        {
            const long MostBytes = (long)MostEntries * MostBytesAnEntry;
            if (ArchiveSeal.DirectoryBytes(stream) is > MostBytes and var bytes)
            {
                faults.Add(path, "list of entries", $"{bytes} bytes", $"at most {MostBytes}");
                return null;
            }

            var zip = new ZipArchive(stream, ZipArchiveMode.Read);
            int before = faults.Count;
            Dictionary<string, ZipArchiveEntry> entries = ArchiveListing.Of(path, zip, file.Length, faults);
            return faults.Count == before && ArchiveListing.ManifestIn(path, entries, faults) is { } manifest
                ? new Archive(path, file, zip, entries, manifest, sha256)
                : null;
        }
#pragma warning disable CA1031 // a hostile file makes the parser throw whatever it stumbles over
        catch (Exception e) when (e is not UnauthorizedAccessException)
#pragma warning restore CA1031
        {
            faults.Add(path, "list of entries", e.Message, "what was written");
            return null;
        }
    }
}
