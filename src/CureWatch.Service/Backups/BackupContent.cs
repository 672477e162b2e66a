using CureWatch.Service.Disk;
using CureWatch.Service.Journal;
using CureWatch.Service.Settings;

namespace CureWatch.Service.Backups;

/// <summary>What of a data folder goes into a backup, fixed at one moment although a service may go on writing.</summary>
/// <param name="Journal">The part of the journal.</param>
/// <param name="IsDemo">Whether the data is a demo's.</param>
/// <param name="IsPart">Whether it is nothing but a part of the journal that is to be retired.</param>
/// <param name="Files">The files, each as far as it counts.</param>
internal sealed record BackupContent(JournalSpan Journal, bool IsDemo, bool IsPart, IReadOnlyList<SourceFile> Files)
{
    /// <summary>How long all of it is [bytes]; in a backup it is seldom longer.</summary>
    public long Bytes => Files.Sum(f => f.Bytes);

    /// <summary>The file of a key that opens nothing of what the journal has that was sealed with it; null where there is none.</summary>
    public string? WrongKey { get; init; }

    /// <remarks>
    /// The journal is fixed first: whatever its entries need was on disk before them. What was read of its open segment is flushed here once
    /// more, so that nothing gets into a backup which a power cut could still take out of the journal.
    /// </remarks>
    /// <param name="disk">The disk.</param>
    /// <param name="data">The data folder.</param>
    /// <param name="faults">Where it is said why not.</param>
    /// <returns>The content; null where the journal cannot be read, or is damaged.</returns>
    public static BackupContent? Of(IDisk disk, string data, Faults faults)
    {
        if (!DataFolder.HasJournal(disk, data, faults))
        {
            return null;
        }

        string journal = DataFolder.JournalOf(data);
        var reader = new JournalReader(disk, journal);
        var keys = new KeyStore(disk, DataFolder.KeysOf(data));
        var codec = new EntryCodec(keys);
        foreach (Frame frame in reader.Frames()) // each is checked as it is read
        {
            KeyCheck.Open(codec, frame);
        }

        JournalEnd end = reader.End;
        if (reader.Damage is { } damage)
        {
            faults.Add(damage.Fault);
            return null;
        }

        if (end.Segment is not { } last || end.JournalId is not { } id || end.Last == 0)
        {
            faults.Add(data, "journal", "no entry", "a journal with something in it");
            return null;
        }

        if (!end.IsSealed && end.Bytes > 0)
        {
            FlushAgain(disk, last.Path);
        }

        List<Segment> segments = [.. Segment.In(disk, journal).Where(s => s.First < last.First)];
        List<SourceFile> files = [.. segments.Append(last).Select(s => SourceFile.Of(disk, data, s.Path))];
        if (end.Bytes == 0)
        {
            files.RemoveAt(files.Count - 1);   // a segment that was just begun
        }
        else
        {
            files[^1] = files[^1] with { Bytes = end.Bytes };
        }

        bool isDemo = disk.Exists(DataFolder.DemoMarkOf(data));
        files.AddRange(Others(disk, data, end.Last));
        long first = (segments.Count > 0 ? segments[0] : last).First;
        return new BackupContent(new JournalSpan(Convert.ToHexStringLower(id), first, end.Last, end.LastAt), isDemo, IsPart: false, files) { WrongKey = keys.Misfits.FirstOrDefault() };
    }

    /// <summary>Makes what somebody else wrote last, while they keep it open. On Windows only they could.</summary>
    private static void FlushAgain(IDisk disk, string path)
    {
        if (!OperatingSystem.IsWindows())
        {
            using IDiskFile file = disk.Open(path, FileUse.Read);
            file.Flush();
        }
    }

    /// <summary>The keys, the marks, the photos, and the snapshots of entries that are in the backup too.</summary>
    private static IEnumerable<SourceFile> Others(IDisk disk, string data, long last) =>
        from folder in new[] { data, DataFolder.JournalOf(data), DataFolder.KeysOf(data), DataFolder.PhotosOf(data), DataFolder.SnapshotsOf(data) }.Where(disk.Exists)
        from file in disk.NamesIn(folder).Order(StringComparer.Ordinal)
        let path = Path.Combine(folder, file)
        let name = SourceFile.NameOf(data, path)
        let role = ArchiveNames.RoleOf(name)
        where role is "mark" or "retirement" or "key" or "photo" || (role == "snapshot" && EntryName.In(file, Path.GetExtension(file)) <= last)
        select SourceFile.Of(disk, data, path);
}
