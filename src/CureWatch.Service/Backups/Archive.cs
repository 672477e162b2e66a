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

    /// <summary>
    /// How much larger than the archive its content may be, beside a little that any may be. Source (choice): a journal shrinks to a third; what
    /// shrinks to a fiftieth was never written by the bay.
    /// </summary>
    private const int MostRatio = 50;
    private const long AlwaysAllowed = 64L << 20;

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

            faults.Add(_path, Entry(file.Name), seen, $"{file.Bytes} bytes with the SHA-256 {file.Sha256}");
        }
        catch (Exception e) when (e is InvalidDataException or EndOfStreamException or NotSupportedException)
        {
            faults.Add(_path, Entry(file.Name), e.Message, "what was written");
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
            Dictionary<string, ZipArchiveEntry> entries = Entries(path, zip, file.Length, faults);
            return faults.Count == before && ReadManifest(path, entries, faults) is { } manifest
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

    private static Dictionary<string, ZipArchiveEntry> Entries(string path, ZipArchive zip, long archiveBytes, Faults faults)
    {
        var entries = new Dictionary<string, ZipArchiveEntry>(StringComparer.OrdinalIgnoreCase);
        long most = AlwaysAllowed + (MostRatio * archiveBytes), sum = 0;
        foreach (ZipArchiveEntry entry in zip.Entries)
        {
            string name = entry.FullName;
            if (Strange(entry) is { } strange)
            {
                faults.Add(path, Entry(name), strange.Seen, strange.Allowed);
            }
            else if (!entries.TryAdd(name, entry))
            {
                faults.Add(path, Entry(name), "the same name again", "each name once, in capitals or not");
            }
            else if ((sum += entry.Length) > most)
            {
                faults.Add(path, Entry(name), $"{sum} bytes up to here", $"at most {most} in a file of {archiveBytes}");
                break;
            }
        }

        return entries;
    }

    private static (string Seen, string Allowed)? Strange(ZipArchiveEntry entry)
    {
        const int KindOfFile = 0xF000, Regular = 0x8000;
        int kind = (entry.ExternalAttributes >> 16) & KindOfFile;
        long most = ArchiveNames.MostBytesOf(entry.FullName);
        return entry.FullName != ArchiveNames.Manifest && ArchiveNames.RoleOf(entry.FullName) is null ? ("this name", ArchiveNames.Allowed)
            : kind is not (0 or Regular) ? ("a link, a folder or a device", "a file")
            : entry.IsEncrypted ? ("an encrypted entry", "a file in the clear")
            : entry.Length < 0 || entry.Length > most ? ($"{entry.Length} bytes", $"at most {most}")
            : null;
    }

    private static Manifest? ReadManifest(string path, Dictionary<string, ZipArchiveEntry> entries, Faults faults)
    {
        if (!entries.TryGetValue(ArchiveNames.Manifest, out ZipArchiveEntry? entry))
        {
            faults.Add(path, Entry(ArchiveNames.Manifest), "nothing", "a backup says what is in it");
            return null;
        }

        using var utf8 = new MemoryStream();
        using (Stream content = entry.Open())
        {
            _ = Copy.Of(content, utf8, entry.Length);
        }

        if (Manifest.Read($"{path}: {ArchiveNames.Manifest}", utf8.GetBuffer().AsSpan(0, (int)utf8.Length), faults) is not { } manifest)
        {
            return null;
        }

        int before = faults.Count;
        var told = new HashSet<string>(StringComparer.OrdinalIgnoreCase);
        foreach (ArchivedFile file in manifest.Files)
        {
            long? bytes = entries.GetValueOrDefault(file.Name)?.Length;
            if (!told.Add(file.Name))
            {
                faults.Add(path, Entry(file.Name), "told twice by the manifest", "each name once, in capitals or not");
            }
            else if (bytes != file.Bytes)
            {
                faults.Add(path, Entry(file.Name), bytes is null ? "nothing" : $"{bytes} bytes", $"{file.Bytes} bytes, says the manifest");
            }
        }

        foreach (string name in entries.Keys.Where(n => n != ArchiveNames.Manifest && !told.Contains(n)))
        {
            faults.Add(path, Entry(name), "an entry the manifest does not tell", "the entries it tells");
        }

        return faults.Count == before ? manifest : null;
    }

    private static string Entry(string name) => $"entry {name}";
}
