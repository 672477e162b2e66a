using CureWatch.Service.Disk;
using CureWatch.Service.Journal;
using CureWatch.Service.Pump;

namespace CureWatch.Service.Snapshots;

/// <summary>The snapshots of a data folder, each named by the entry it was taken after. Without them all that is needed is in the journal.</summary>
/// <param name="disk">The disk.</param>
/// <param name="data">The data folder.</param>
internal sealed class SnapshotFolder(IDisk disk, string data)
{
    private const string Ending = ".snapshot";

    /// <summary>How many are kept at least: one may not have come through whole. Source (choice).</summary>
    private const int Most = 2;

    /// <summary>What a snapshot leaves free: without one a start takes longer, without room for the journal nothing is taken. Source (choice): weeks of a shop.</summary>
    private const long LeftBytes = 20_000_000;

    private string Folder => DataFolder.SnapshotsOf(data);

    /// <summary>The entries after which those were taken that this program can use, the newest first.</summary>
    public IReadOnlyList<long> Sequences => JournalId() is { } journal ? [.. All().Where(s => IsOurs(s, journal))] : [];

    /// <summary>Reads the newest that this program can use.</summary>
    /// <param name="keys">The keys; as they are on the disk where left out.</param>
    /// <returns>The state after it; null where there is none.</returns>
    public Register? Newest(KeyStore? keys = null) => First(Sequences, keys);

    /// <summary>Reads the one to begin from for whoever wants all entries after one, or as many of them as can be folded.</summary>
    /// <param name="sequence">The number of the entry; 0 for all.</param>
    /// <returns>The state after it; null where the journal is read from its beginning.</returns>
    public Register? Before(long sequence)
    {
        IReadOnlyList<long> all = Sequences;
        bool isBegunLater = Segment.In(disk, DataFolder.JournalOf(data)) is [{ First: > 1 }, ..];
        return First(all.Where(s => s <= sequence)) ?? (isBegunLater ? First(all.Reverse()) : null);
    }

    /// <summary>Looks at every one, of this journal or not, and changes nothing.</summary>
    /// <returns>Its file, and after which entry of which journal it was taken; null where that is not what was written.</returns>
    public IEnumerable<(string Path, (byte[] JournalId, long Sequence)? Taken)> Look()
    {
        foreach (long sequence in All())
        {
            string path = PathOf(sequence);
            byte[] file;
            try
            {
                file = DurableFile.Read(disk, path);
            }
            catch (FileNotFoundException)
            {
                continue; // a service has thrown it away meanwhile
            }

            yield return (path, Snapshot.Whole(file) is { } taken && taken.Sequence == sequence ? taken : null);
        }
    }

    /// <summary>Takes one, and throws away those that are no longer needed, or of no use.</summary>
    /// <param name="register">A state that is on disk as entries of the journal.</param>
    /// <param name="level">The entry up to which whoever follows the journal needs it no more: the newest from which all after that can be folded is kept too.</param>
    /// <param name="known">The keys the state was read with; null where nobody asks whether they are the same.</param>
    /// <returns>The entry of the oldest that is kept.</returns>
    /// <exception cref="IOException">It could not be taken, or would lose what a key opens once it is put right.</exception>
    public long Take(Register register, long level, KeyStore? known = null)
    {
        byte[] bytes = Snapshot.Of(register, JournalId() ?? throw new IOException("There is no journal to take a snapshot of."), Keys());
        if (known?.Doubtful() is { } file) // asked once all is sealed: a key may be made anew meanwhile
        {
            throw new IOException($"{file} is not what the state was read with: put it right, and start again.");
        }

        DurableFile.MakeFolder(disk, Folder);
        string path = PathOf(register.Sequence);
        disk.Delete(path); // one that could not be read
        foreach (string cutOff in disk.NamesIn(Folder).Where(n => n.EndsWith(Ending + DurableFile.Unfinished, StringComparison.Ordinal)))
        {
            disk.Delete(Path.Combine(Folder, cutOff));
        }

        if (disk.FreeBytes(Folder) < bytes.Length + LeftBytes)
        {
            throw new IOException($"A snapshot of {bytes.Length} bytes would leave too little room for the journal.");
        }

        DurableFile.Create(disk, path, bytes, isSecret: true);
        IReadOnlyList<long> all = Sequences;
        long begin = all.FirstOrDefault(s => s <= level, all[^1]);
        List<long> kept = [.. all.Where((s, i) => i < Most || s == begin)];
        foreach (long old in All().Except(kept))
        {
            disk.Delete(PathOf(old));
        }

        return kept[^1];
    }

    /// <summary>The entries in the names of all of them, the newest first.</summary>
    private List<long> All()
    {
        try
        {
            return disk.Exists(Folder) ? [.. disk.NamesIn(Folder).Select(file => EntryName.In(file, Ending)).OfType<long>().OrderDescending()] : [];
        }
        catch (Exception e) when (IsOfTheFile(e))
        {
            return []; // such as a file of that name
        }
    }

    private bool IsOurs(long sequence, byte[] journal)
    {
        try
        {
            return Snapshot.IsOurs(DurableFile.ReadStart(disk, PathOf(sequence), Snapshot.HeaderBytes), journal);
        }
        catch (Exception e) when (IsOfTheFile(e))
        {
            return false;
        }
    }

    private Register? First(IEnumerable<long> sequences, KeyStore? keys = null)
    {
        byte[]? journal = JournalId();
        keys ??= Keys();
        return sequences.Select(s => Read(s, journal, keys)).FirstOrDefault(r => r is not null);
    }

    private Register? Read(long sequence, byte[]? journal, KeyStore keys)
    {
        try
        {
            return Snapshot.Read(DurableFile.Read(disk, PathOf(sequence)), journal, keys);
        }
        catch (Exception e) when (IsOfTheFile(e))
        {
            return null;
        }
    }

    /// <summary>Whatever is wrong with a snapshot, or with a key, the journal has it all, and who reads that says so.</summary>
    private static bool IsOfTheFile(Exception e) => e is IOException or UnauthorizedAccessException or InvalidDataException;

    /// <summary>The keys as they are on the disk now: one that was destroyed meanwhile is not known any more.</summary>
    private KeyStore Keys() => new(disk, DataFolder.KeysOf(data));

    private string PathOf(long sequence) => Path.Combine(Folder, EntryName.Of(sequence) + Ending);

    private byte[]? JournalId() => Segment.In(disk, DataFolder.JournalOf(data)) is [var first, ..]
        ? Segment.HeaderIn(DurableFile.ReadStart(disk, first.Path, Segment.HeaderBytes), first.First)?.JournalId
        : null;
}
