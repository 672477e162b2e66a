using CureWatch.Service.Disk;
using CureWatch.Service.Journal;
using CureWatch.Service.Settings;

namespace CureWatch.Service.Backups;

/// <summary>Moves what is old of a journal into an archive of its own, which no rotation touches.</summary>
/// <remarks>
/// First the archive, read back; then the file that tells of it, beside the segments; only then do the segments go, the oldest first, each only
/// while the archive is seen to hold it. Cut off anywhere, the journal is whole or begins after a part that says where it is, and the next
/// night goes on.
/// </remarks>
/// <param name="disk">The disk, or disks.</param>
/// <param name="journal">The folder of the journal.</param>
/// <param name="shelf">Where the archives are kept.</param>
/// <param name="faults">Where it is said why not.</param>
internal sealed class Retirement(IDisk disk, string journal, BackupShelf shelf, Faults faults)
{
    /// <summary>Moves the full segments away that are old enough, that a backup holds, and that nobody here still needs.</summary>
    /// <param name="backup">A backup that was just read back.</param>
    /// <param name="needed">The number of the oldest entry that somebody here may still read.</param>
    /// <param name="before">The instant all entries have to be before.</param>
    /// <param name="cancelled">Cancelled where it has to end.</param>
    /// <returns>What is here no more; null where all stays.</returns>
    public RetiredPart? Run(Manifest backup, long needed, DateTimeOffset before, CancellationToken cancelled)
    {
        foreach (RetiredPart begun in RetiredPart.In(disk, journal))
        {
            Remove(begun);
        }

        List<(Segment Segment, long Last, DateTimeOffset Until, ArchivedFile File)> old = faults.Count > 0 ? [] : [.. Old(backup, needed, before)];
        if (old.Count == 0)
        {
            return null;
        }

        var span = new JournalSpan(backup.Journal.Id, old[0].Segment.First, old[^1].Last, old[^1].Until);
        string path = shelf.PathOf(span.First, span.Last);
        var content = new BackupContent(
            span, backup.IsDemo, IsPart: true, [.. old.Select(o => new SourceFile(o.File.Name, o.Segment.Path, o.File.Bytes))]);
        if (!disk.Exists(path) && Backup.Write(disk, () => content, path, backup.Program, backup.At, faults, cancelled) is null)
        {
            return null;
        }

        var part = new RetiredPart(
            span.Id, [.. old.Select(o => new RetiredSegment(o.Segment.First, o.Last, o.File.Sha256))], Path.GetFileName(path));
        if (!Holds(part, [.. old.Select(o => o.File)]))
        {
            return null;
        }

        part.Write(disk, journal);
        Remove(part);
        return part;
    }

    private static string NameOf(Segment segment) => $"journal/{Path.GetFileName(segment.Path)}";

    private IEnumerable<(Segment Segment, long Last, DateTimeOffset Until, ArchivedFile File)> Old(Manifest backup, long needed, DateTimeOffset before)
    {
        IReadOnlyList<Segment> segments = Segment.In(disk, journal);
        for (int i = 0; i + 1 < segments.Count; i++)
        {
            (Segment segment, Segment next) = (segments[i], segments[i + 1]);
            ArchivedFile? file = backup.Files.FirstOrDefault(f => f.Name == NameOf(segment));
            if (file is null || next.First > needed || FirstAt(next) is not { } at || at > before)
            {
                yield break;
            }

            yield return (segment, next.First - 1, at, file);
        }
    }

    /// <returns>The instant of a segment's first frame, up to which the one before lasted; null where it has none yet.</returns>
    private DateTimeOffset? FirstAt(Segment segment)
    {
        byte[] bytes = DurableFile.Read(disk, segment.Path);
        return Segment.HeaderIn(bytes, segment.First) is var (form, _) && FrameFormat.TryRead(bytes.AsMemory(Segment.HeaderBytes), form, out Frame frame) > 0 ? frame.At : null;
    }

    /// <summary>Whether the archive, read anew, has the very files that the backup has too.</summary>
    private bool Holds(RetiredPart part, IReadOnlyList<ArchivedFile> files)
    {
        using Archive? archive = Archive.Open(disk, shelf.PathOf(part.Archive), faults);
        if (archive is not null && !archive.Manifest.Files.SequenceEqual(files))
        {
            faults.Add(shelf.PathOf(part.Archive), "manifest.json", "other files than the journal's", $"the segments of the entries {part.First} to {part.Last}");
        }

        return archive is not null && archive.ReadAll(faults) && faults.Count == 0;
    }

    private void Remove(RetiredPart part)
    {
        List<Segment> segments = [.. Segment.In(disk, journal).Where(s => s.First <= part.Last)];
        if (segments.Count == 0)
        {
            return;
        }

        using Archive? archive = Archive.Open(disk, shelf.PathOf(part.Archive), faults);
        if (archive is null || !archive.ReadAll(faults))
        {
            return;
        }

        foreach (Segment segment in segments)
        {
            if (archive.Manifest.Files.FirstOrDefault(f => f.Name == NameOf(segment))?.Sha256 != Sha256Of(segment))
            {
                faults.Add(segment.Path, "whole file", "other bytes than in its archive", $"what {part.Archive} holds");
                return;
            }

            disk.Delete(segment.Path);
            disk.FlushFolder(journal);
        }
    }

    private string Sha256Of(Segment segment)
    {
        using IDiskFile file = disk.Open(segment.Path, FileUse.Read);
        return Copy.Of(new DiskStream(file, canWrite: false), Stream.Null, file.Length).Sha256;
    }
}
