using CureWatch.Service.Journal;
using CureWatch.Service.Pump;

namespace CureWatch.Service.Snapshots;

/// <summary>The entries on disk, read and folded once more from the nearest snapshot on, beside the pump that goes on writing.</summary>
internal sealed class JournalSteps(DataFolder folder) : IJournalSteps
{
    public IEnumerable<Step> After(long sequence)
    {
        Register? known = new SnapshotFolder(folder.Disk, folder.Path).Before(sequence);
        if (sequence > 0 && known?.Sequence > sequence)
        {
            throw new InvalidDataException($"the journal is kept from entry {known.Sequence + 1} on, and what follows entry {sequence} is wanted");
        }

        var recovery = new Recovery(folder.Disk, folder.Journal, new EntryCodec(new KeyStore(folder.Disk, folder.Keys)), known);
        return recovery.Steps().Where(s => s.Sequence > sequence);
    }
}
