using CureWatch.Service.Disk;
using CureWatch.Service.Journal;
using CureWatch.Service.Pump;
using CureWatch.Service.Settings;
using CureWatch.Service.Snapshots;

namespace CureWatch.Service.Commands;

/// <summary>Folds a data folder's journal for a command, which says in one line why where it cannot be.</summary>
internal static class JournalFold
{
    /// <param name="disk">The disk.</param>
    /// <param name="data">The data folder.</param>
    /// <param name="until">Where to stop; null for the end.</param>
    /// <param name="faults">Where it is said why not.</param>
    /// <param name="look">Looks at every entry taken in; null where nobody does.</param>
    /// <param name="startKeys">The keys of the service that begins with it, from the newest snapshot on; null where all is read that is here.</param>
    /// <returns>
    /// The journal as far as it was read, and what follows from its entries up to then; null where it cannot be read, or is damaged.
    /// </returns>
    public static (Recovery Journal, Register Register)? Of(IDisk disk, string data, DateTimeOffset? until, Faults faults, Action<Step>? look = null, KeyStore? startKeys = null)
    {
        try
        {
            var snapshots = new SnapshotFolder(disk, data);
            Recovery journal = Open(disk, data, startKeys is not null ? snapshots.Newest(startKeys) : null, startKeys);
            Register register = journal.Register;
            if (register.At > until)
            {
                faults.Add(data, "journal", $"what was told by {UtcText.Of(until.Value)} is in an archive", $"an instant from {UtcText.Of(register.At)} on, or 'restore --journal' to put the archive back");
                return null;
            }

            foreach (Step step in journal.Steps().TakeWhile(s => !(s.At > until)))
            {
                register = step.After;
                look?.Invoke(step);
            }

            if (journal.Damage is not { } damage)
            {
                if (startKeys is null || journal.End.Last > 0 || LostJournal.Trace(disk, data) is not { } lost)
                {
                    return (journal, register);
                }

                faults.Add(lost);
                return null;
            }

            faults.Add(damage.Fault);
        }
        catch (Exception e) when (e is IOException or UnauthorizedAccessException or InvalidDataException)
        {
            faults.Add(data, "journal", e.Message, "a journal that this program can read");
        }

        return null;
    }

    /// <summary>Opens a journal to be read, with the keys that are there; where its beginning is in an archive, after the oldest snapshot.</summary>
    public static Recovery Open(IDisk disk, string data, Register? known = null, KeyStore? keys = null)
    {
        known ??= new SnapshotFolder(disk, data).Before(0);
        return new Recovery(disk, DataFolder.JournalOf(data), new EntryCodec(keys ?? new KeyStore(disk, DataFolder.KeysOf(data))), known);
    }
}
