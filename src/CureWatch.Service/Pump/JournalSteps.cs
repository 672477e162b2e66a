using CureWatch.Service.Journal;

namespace CureWatch.Service.Pump;

/// <summary>The entries on disk, read and folded once more from the beginning, beside the pump that goes on writing.</summary>
internal sealed class JournalSteps(DataFolder folder) : IJournalSteps
{
    public IEnumerable<Step> After(long sequence)
    {
        var recovery = new Recovery(folder.Disk, folder.Journal, new EntryCodec(new KeyStore(folder.Disk, folder.Keys)));
        return recovery.Steps().Where(s => s.Sequence > sequence);
    }
}
