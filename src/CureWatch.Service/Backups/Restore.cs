using CureWatch.Service.Disk;
using CureWatch.Service.Journal;
using CureWatch.Service.Settings;

namespace CureWatch.Service.Backups;

/// <summary>Makes a data folder of a backup.</summary>
/// <remarks>
/// The files are put together in a folder inside the new one, for that may be where a disk is mounted, which nothing can be renamed over. They go
/// to their places last, the journal at the very end: until it is there, no service takes the folder for its own.
/// </remarks>
internal sealed class Restore(IDisk disk, Archive archive, string source, string target, Faults faults)
{
    private const string Unfinished = "restoring";
    private const string Keys = "keys";
    private const string Allowed = "a new or empty folder that can be written";

    private string Work => Path.Combine(target, Unfinished);

    /// <param name="disk">The disk.</param>
    /// <param name="source">The backup.</param>
    /// <param name="target">The data folder to be: new, or empty.</param>
    /// <param name="faults">Where it is said why not.</param>
    /// <param name="parts">Archives of parts of its journal that were retired, to be put back before it.</param>
    /// <returns>What was restored; null where nothing was, and then nothing is left behind.</returns>
    public static Manifest? Of(IDisk disk, string source, string target, Faults faults, params IReadOnlyList<string> parts)
    {
        try
        {
            bool isNew = !Directory.Exists(target);
            if (!isNew && Occupied(disk, target) is { } seen)
            {
                faults.Add(target, "data folder", seen, Allowed);
                return null;
            }

            using Archive? archive = Archive.Open(disk, source, faults);
            if (archive?.Manifest.IsPart == true)
            {
                faults.Add(source, "manifest.json", "a part of a journal", "a whole backup; a part goes before one with --journal");
                return null;
            }

            return archive is not null && Into(disk, target, isNew, archive, source, faults, parts) ? archive.Manifest : null;
        }
        catch (Exception e) when (e is IOException or UnauthorizedAccessException or ArgumentException or NotSupportedException or InvalidDataException)
        {
            faults.Add(target, "data folder", e.Message, Allowed);
            return null;
        }
    }

    private static bool Into(
        IDisk disk, string target, bool isNew, Archive archive, string source, Faults faults, IReadOnlyList<string> parts)
    {
        bool isHeld = false, isDone = false;
        try
        {
            Directory.CreateDirectory(target);
            using IDiskFile held = disk.Open(DataFolder.LockOf(target), FileUse.Hold);
            isHeld = true;
            isDone = new Restore(disk, archive, source, target, faults).Run(parts);
            return isDone;
        }
        finally
        {
            if (isHeld && !isDone)
            {
                CleanUp(archive, target);
            }

            if (isNew && !isDone && Directory.Exists(target) && !Directory.EnumerateFileSystemEntries(target).Any())
            {
                Directory.Delete(target);
            }
        }
    }

    private bool Run(IReadOnlyList<string> parts)
    {
        if (Directory.Exists(Work))
        {
            Directory.Delete(Work, recursive: true); // of one that was cut off
        }

        if (!archive.Manifest.Files.All(f => Extract(archive, f)) || !parts.All(PutBack))
        {
            return false;
        }

        Directory.CreateDirectory(Path.Combine(Work, Keys));
        foreach (string folder in Directory.EnumerateDirectories(Work).Append(Work))
        {
            disk.FlushFolder(folder);
        }

        if (!IsWholeJournal())
        {
            return false;
        }

        MoveIn();
        return true;
    }

    /// <summary>Puts a retired part of the journal back, and takes away what told of it.</summary>
    private bool PutBack(string path)
    {
        using Archive? part = Archive.Open(disk, path, faults);
        if (part is null)
        {
            return false;
        }

        if (part.Manifest.Journal.Id != archive.Manifest.Journal.Id)
        {
            faults.Add(path, "manifest.json", $"the journal {part.Manifest.Journal.Id}", $"{archive.Manifest.Journal.Id}, the backup's");
            return false;
        }

        string journal = DataFolder.JournalOf(Work);
        if (!part.Manifest.Files.Where(f => f.Role == "journal" && !disk.Exists(Path.Combine(Work, f.Name))).All(f => Extract(part, f)))
        {
            return false;
        }

        foreach (RetiredPart back in RetiredPart.In(disk, journal).Where(p => disk.Exists(Segment.Named(journal, p.First).Path)))
        {
            disk.Delete(Path.Combine(journal, back.FileName));
        }

        return true;
    }

    private bool Extract(Archive from, ArchivedFile file)
    {
        string path = Path.Combine(Work, Path.Combine(file.Name.Split('/')));
        Directory.CreateDirectory(Path.GetDirectoryName(path)!);
        using IDiskFile made = disk.Open(path, file.Role is "key" or "photo" ? FileUse.MakeSecret : FileUse.Make);
        bool isSound = from.Read(file, new DiskStream(made), faults);
        made.Flush();
        return isSound;
    }

    /// <summary>Digests say that nothing changed since the backup was written; whether that was a journal, only reading it says.</summary>
    private bool IsWholeJournal()
    {
        string journal = DataFolder.JournalOf(Work);
        var reader = new JournalReader(disk, Directory.CreateDirectory(journal).FullName);
        (IReadOnlyList<string> unfit, _) = KeyCheck.Of(reader, disk, DataFolder.KeysOf(Work));
        JournalSpan told = archive.Manifest.Journal;
        JournalEnd end = reader.End;
        (string Place, string Seen, string Allowed)? wrong =
            reader.Damage is { } damage ? ($"entry {SourceFile.NameOf(Work, damage.File)}", $"byte {damage.Offset}: {damage.What}", "a whole journal")
            : end.JournalId is not { } id || end.Last == 0 ? ("journal", "no entry", "a journal with something in it")
            : Convert.ToHexStringLower(id) != told.Id ? ("journal", $"id {Convert.ToHexStringLower(id)}", $"{told.Id}, says the manifest")
            : end.TornBytes > 0 || end.Last != told.Last ? ("journal", $"its end at entry {end.Last}", $"entry {told.Last}, says the manifest")
            : unfit.Count > 0 ? ("keys", unfit[0], "keys that open what was sealed with them")
            : null;
        if (wrong is { } fault)
        {
            faults.Add(source, fault.Place, fault.Seen, fault.Allowed);
        }

        return wrong is null;
    }

    private void MoveIn()
    {
        string journal = DataFolder.JournalOf(Work);
        foreach (string path in Directory.EnumerateFileSystemEntries(Work).Where(p => p != journal).Append(journal).ToList())
        {
            string place = Path.Combine(target, Path.GetFileName(path));
            if (File.Exists(path))
            {
                File.Move(path, place);
            }
            else
            {
                Directory.Move(path, place);
            }
        }

        Directory.Delete(Work);
        disk.FlushFolder(target);
        disk.FlushFolder(Path.GetDirectoryName(Path.GetFullPath(target.TrimEnd(Path.DirectorySeparatorChar)))!);
    }

    /// <returns>What is in a folder that should be empty, but for what a restore left that was cut off; null where nothing is.</returns>
    private static string? Occupied(IDisk disk, string target)
    {
        IReadOnlyList<string> names = disk.NamesIn(target);
        if (DataFolder.Others(names) is null)
        {
            return null;
        }

        bool isFree = DataFolder.TryKeepOut(disk, target, out IDisposable? kept);
        kept?.Dispose();
        string ownLock = Path.GetFileName(DataFolder.LockOf(target));
        return !isFree ? "a data folder in use"
            : DataFolder.Others(names.Contains(Unfinished) ? names.Where(n => n != Unfinished && n != ownLock) : names);
    }

    /// <summary>Takes back what was made, and nothing that somebody else put there meanwhile.</summary>
    private static void CleanUp(Archive archive, string target)
    {
        IEnumerable<string> tops = archive.Manifest.Files.Select(f => f.Name.Split('/')[0]).Distinct();
        foreach (string path in tops.Append(Unfinished).Append(Keys).Select(name => Path.Combine(target, name)).Where(Directory.Exists))
        {
            Directory.Delete(path, recursive: true);
        }

        File.Delete(DataFolder.DemoMarkOf(target));
        File.Delete(DataFolder.LockOf(target));
    }
}
