using System.IO.Compression;
using CureWatch.Service.Journal;
using CureWatch.Service.Settings;

namespace CureWatch.Service.Backups;

/// <summary>What is in an archive by its own list, held against what may be in a backup, before anything of it is read.</summary>
internal static class ArchiveListing
{
    /// <summary>
    /// How much larger than the archive its content may be, beside a little that any may be. Source (choice): a journal shrinks to a third; what
    /// shrinks to a fiftieth was never written by the bay.
    /// </summary>
    private const int MostRatio = 50;
    private const long AlwaysAllowed = 64L << 20;

    /// <returns>The entries by name, capitals or not; those without a fault.</returns>
    public static Dictionary<string, ZipArchiveEntry> Of(string path, ZipArchive zip, long archiveBytes, Faults faults)
    {
        var entries = new Dictionary<string, ZipArchiveEntry>(StringComparer.OrdinalIgnoreCase);
        long most = AlwaysAllowed + (MostRatio * archiveBytes), sum = 0;
        foreach (ZipArchiveEntry entry in zip.Entries)
        {
            string name = entry.FullName;
            if (Strange(entry) is { } strange)
            {
                faults.Add(path, Place(name), strange.Seen, strange.Allowed);
            }
            else if (!entries.TryAdd(name, entry))
            {
                faults.Add(path, Place(name), "the same name again", "each name once, in capitals or not");
            }
            else if ((sum += entry.Length) > most)
            {
                faults.Add(path, Place(name), $"{sum} bytes up to here", $"at most {most} in a file of {archiveBytes}");
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

    /// <returns>What the archive says of itself; null where that is not what is in it.</returns>
    public static Manifest? ManifestIn(string path, Dictionary<string, ZipArchiveEntry> entries, Faults faults)
    {
        if (!entries.TryGetValue(ArchiveNames.Manifest, out ZipArchiveEntry? entry))
        {
            faults.Add(path, Place(ArchiveNames.Manifest), "nothing", "a backup says what is in it");
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
                faults.Add(path, Place(file.Name), "told twice by the manifest", "each name once, in capitals or not");
            }
            else if (file.Role == "photo" && file.Name != $"photos/{file.Sha256}.jpg")
            {
                faults.Add(path, Place(file.Name), $"SHA-256 {file.Sha256}", "a photo that is named by its SHA-256");
            }
            else if (bytes != file.Bytes)
            {
                faults.Add(path, Place(file.Name), bytes is null ? "nothing" : $"{bytes} bytes", $"{file.Bytes} bytes, says the manifest");
            }
        }

        foreach (string name in entries.Keys.Where(n => n != ArchiveNames.Manifest && !told.Contains(n)))
        {
            faults.Add(path, Place(name), "an entry the manifest does not tell", "the entries it tells");
        }

        if (manifest is { IsPart: false, IsDemo: var isDemo } && isDemo != told.Contains(DataFolder.DemoMark))
        {
            faults.Add(path, Place(DataFolder.DemoMark), isDemo ? "nothing" : "a demo's mark", $"as the manifest says: \"demo\": {(isDemo ? "true" : "false")}");
        }

        return faults.Count == before ? manifest : null;
    }

    /// <summary>Where in an archive something is, for a fault.</summary>
    public static string Place(string name) => $"entry {name}";
}
