using System.Collections.Immutable;
using System.IO.Compression;
using System.Text.Json;
using CureWatch.Service.Disk;
using CureWatch.Service.Journal;
using CureWatch.Service.Settings;

namespace CureWatch.Service.Backups;

/// <summary>A backup that was written, read back and found whole.</summary>
/// <param name="Path">The file.</param>
/// <param name="Bytes">How long it is.</param>
/// <param name="Sha256">The digest at its end.</param>
/// <param name="Manifest">What is in it.</param>
internal sealed record Backup(string Path, long Bytes, string Sha256, Manifest Manifest)
{
    /// <summary>Writes a backup of a data folder, beside a service that may be running.</summary>
    /// <param name="disk">The disk, or disks.</param>
    /// <param name="data">The data folder.</param>
    /// <param name="path">The file to write; its name has to be free.</param>
    /// <param name="program">The version of this program.</param>
    /// <param name="now">The present.</param>
    /// <param name="faults">Where it is said why not.</param>
    /// <param name="cancelled">Cancelled where it has to end.</param>
    /// <returns>The backup; null where there is none, and then nothing of it is left either.</returns>
    public static Backup? Write(
        IDisk disk, string data, string path, string program, DateTimeOffset now, Faults faults, CancellationToken cancelled = default) =>
        Write(disk, data, path, program, now, faults, _ => { }, cancelled);

    /// <summary>The same, with somebody told what goes into it before anything is written: all of the journal was read by then, and is whole.</summary>
    public static Backup? Write(
        IDisk disk, string data, string path, string program, DateTimeOffset now, Faults faults, Action<BackupContent> fixedAs, CancellationToken cancelled)
    {
        return Write(disk, Fix, path, program, now, faults, cancelled);

        BackupContent? Fix()
        {
            if (IsAmong(data, path, faults) || BackupContent.Of(disk, data, faults) is not { } content)
            {
                return null;
            }

            fixedAs(content);
            return content;
        }
    }

    /// <summary>The same of what somebody else has fixed; null where it could not be.</summary>
    public static Backup? Write(
        IDisk disk, Func<BackupContent?> fix, string path, string program, DateTimeOffset now, Faults faults, CancellationToken cancelled)
    {
        string unfinished = $"{path}.{System.IO.Path.GetRandomFileName()[..8]}{DurableFile.Unfinished}"; // somebody else may be writing one of that name
        string? made = null;
        try
        {
            if (disk.Exists(path))
            {
                faults.Add(path, "file", "a file of that name", "a name that is free: no backup is overwritten");
                return null;
            }

            if (fix() is not { } content)
            {
                return null;
            }

            made = unfinished;
            Write(disk, content, unfinished, program, now, cancelled);
            using Archive? archive = Archive.Open(disk, unfinished, faults);
            if (archive is null || !archive.ReadAll(faults))
            {
                return null;
            }

            disk.Move(unfinished, path);
            made = path;
            disk.FlushFolder(System.IO.Path.GetDirectoryName(System.IO.Path.GetFullPath(path))!);
            made = null;
            return new Backup(path, archive.Bytes, archive.Sha256, archive.Manifest);
        }
        catch (Exception e) when (e is IOException or UnauthorizedAccessException or ArgumentException or NotSupportedException)
        {
            faults.Add(path, "file", e.Message, "a place that can be written, and a data folder that can be read");
            return null;
        }
        finally
        {
            if (made is not null)
            {
                Remove(disk, made);
            }
        }
    }

    /// <summary>Whether a file would lie where a start looks for files of its own, and might take it for one.</summary>
    private static bool IsAmong(string data, string path, Faults faults)
    {
        string file = System.IO.Path.GetFullPath(path);
        string[] folders = [DataFolder.JournalOf(data), DataFolder.KeysOf(data), DataFolder.BookOf(data), DataFolder.PhotosOf(data), DataFolder.SnapshotsOf(data)];
        bool isAmong = folders.Any(f => file.StartsWith(System.IO.Path.GetFullPath(f) + System.IO.Path.DirectorySeparatorChar, StringComparison.Ordinal));
        if (isAmong)
        {
            faults.Add(path, "file", "a place among what is backed up", "a place outside journal, book, keys, photos and snapshots");
        }

        return isAmong;
    }

    private static void Write(
        IDisk disk, BackupContent content, string unfinished, string program, DateTimeOffset now, CancellationToken cancelled)
    {
        using IDiskFile file = disk.Open(unfinished, FileUse.MakeSecret);   // the keys are in it
        var room = new BackupRoom(disk, System.IO.Path.GetDirectoryName(System.IO.Path.GetFullPath(unfinished))!, content.Bytes);
        var stream = new DiskStream(file);
        using (var zip = new ZipArchive(stream, ZipArchiveMode.Create, leaveOpen: true))
        {
            zip.Comment = ArchiveSeal.Blank;
            ImmutableArray<ArchivedFile> files = [.. content.Files.Select(f => Add(zip, disk, f, room, now, cancelled)).OfType<ArchivedFile>()];
            using Stream manifest = Begin(zip, ArchiveNames.Manifest, now);
            using var json = new Utf8JsonWriter(manifest);
            new Manifest(program, now, content.Journal, content.IsDemo, content.IsPart, files).Write(json);
        }

        _ = ArchiveSeal.Set(stream);
        file.Flush();
    }

    /// <returns>The file; null for a snapshot that a service has thrown away since: all that is needed is in the journal.</returns>
    private static ArchivedFile? Add(ZipArchive zip, IDisk disk, SourceFile source, BackupRoom room, DateTimeOffset now, CancellationToken cancelled)
    {
        using IDiskFile? from = Open(disk, source);
        if (from is null)
        {
            return null;
        }

        using Stream into = Begin(zip, source.Name, now);
        (long bytes, string sha256) = Copy.Of(new DiskStream(from, canWrite: false), into, source.Bytes, room.Take, cancelled);
        return bytes == source.Bytes
            ? new ArchivedFile(source.Name, bytes, sha256)
            : throw new EndOfStreamException($"{source.Path}: it became shorter while it was read.");
    }

    private static IDiskFile? Open(IDisk disk, SourceFile source)
    {
        try
        {
            return disk.Open(source.Path, FileUse.Read);
        }
        catch (Exception e) when (e is (FileNotFoundException or DirectoryNotFoundException) && ArchiveNames.RoleOf(source.Name) == "snapshot")
        {
            return null;
        }
    }

    private static Stream Begin(ZipArchive zip, string name, DateTimeOffset now)
    {
        const int FileOfTheOwnerAlone = 0x8180;   // S_IFREG | 0600
        ZipArchiveEntry entry = zip.CreateEntry(name, CompressionLevel.Fastest);
        entry.LastWriteTime = now;
        entry.ExternalAttributes = FileOfTheOwnerAlone << 16;
        return entry.Open();
    }

    /// <summary>What cannot be removed now is written over, or cleared away, by the next backup.</summary>
    private static void Remove(IDisk disk, string unfinished)
    {
        try
        {
            disk.Delete(unfinished);
        }
        catch (Exception e) when (e is IOException or UnauthorizedAccessException)
        {
            // Why there is no backup is said already.
        }
    }
}
