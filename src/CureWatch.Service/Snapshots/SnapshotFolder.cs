using System.Globalization;
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
    private const int Digits = 20;

    /// <summary>How many are kept: the book may be behind the newest, and is brought level from the one before. Source (choice).</summary>
    private const int Most = 2;

    private string Folder => DataFolder.SnapshotsOf(data);

    /// <summary>The entries they were taken after, the newest first.</summary>
    public IReadOnlyList<long> Sequences => !disk.Exists(Folder)
        ? []
        : [.. from file in disk.NamesIn(Folder)
              where file.Length == Digits + Ending.Length && file.EndsWith(Ending, StringComparison.Ordinal) && file[..Digits].All(char.IsAsciiDigit)
              let sequence = long.Parse(file[..Digits], NumberStyles.None, CultureInfo.InvariantCulture)
              orderby sequence descending
              select sequence];

    /// <summary>Reads the newest that this program can use.</summary>
    /// <param name="upTo">No newer one than of this entry.</param>
    /// <returns>The state after it; null where there is none.</returns>
    public Register? Newest(long upTo = long.MaxValue) => JournalId() is { } journal
        ? Sequences.Where(s => s <= upTo).Select(s => Snapshot.Read(DurableFile.Read(disk, PathOf(s)), journal)).FirstOrDefault(r => r is not null)
        : null;

    /// <summary>Reads the oldest that this program can use.</summary>
    public Register? Oldest() => JournalId() is { } journal
        ? Sequences.Reverse().Select(s => Snapshot.Read(DurableFile.Read(disk, PathOf(s)), journal)).FirstOrDefault(r => r is not null)
        : null;

    /// <summary>Takes one, and throws away those that are no longer needed.</summary>
    /// <param name="register">A state that is on disk as entries of the journal.</param>
    /// <returns>The entry of the oldest that is kept.</returns>
    public long Take(Register register)
    {
        byte[] bytes = Snapshot.Of(register, JournalId() ?? throw new IOException("There is no journal to take a snapshot of."));
        DurableFile.MakeFolder(disk, Folder);
        string path = PathOf(register.Sequence);
        disk.Delete(path); // one that could not be read
        DurableFile.Create(disk, path, bytes, isSecret: true);
        IReadOnlyList<long> all = Sequences;
        foreach (long old in all.Skip(Most))
        {
            disk.Delete(PathOf(old));
        }

        return all[Math.Min(Most, all.Count) - 1];
    }

    private string PathOf(long sequence) => Path.Combine(Folder, sequence.ToString("D20", CultureInfo.InvariantCulture) + Ending);

    private byte[]? JournalId() => Segment.In(disk, DataFolder.JournalOf(data)) is [var first, ..]
        ? Segment.HeaderIn(DurableFile.ReadStart(disk, first.Path, Segment.HeaderBytes), first.First)?.JournalId
        : null;
}
