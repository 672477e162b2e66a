using System.Collections.Immutable;
using CureWatch.Service.Journal;
using CureWatch.Service.Pump;
using CureWatch.Service.Settings;

namespace CureWatch.Service.Commands;

/// <summary>A data folder read to its end, and what the start has to journal: what the settings bring, and what nobody was told yet.</summary>
internal sealed record Recovered(Register Register, JournalEnd End, ImmutableArray<Entry> First, KeyStore Keys)
{
    /// <param name="folder">The data folder, held by the caller.</param>
    /// <param name="config">The configuration folder.</param>
    /// <param name="isForced">Whether files win also where the board has changed the same since.</param>
    /// <param name="faults">Where it is said why not.</param>
    /// <param name="look">Looks at every entry that has to be read; null where nobody does.</param>
    /// <returns>What was recovered, or null where the folder or the settings cannot be used.</returns>
    public static Recovered? From(DataFolder folder, string config, bool isForced, Faults faults, Action<Step>? look = null)
    {
        int before = faults.Count;
        if (ConfigurationFolder.Find(config, faults) is not { } files || Configuration.Read(files, faults) is not { } configuration)
        {
            return null;
        }

        var keys = new KeyStore(folder.Disk, folder.Keys);
        if (JournalFold.Of(folder.Disk, folder.Path, null, faults, look, keys) is not { Journal: var journal, Register: var register })
        {
            return null;
        }

        ImmutableArray<Entry> imports = Imports.Decide(register, files, configuration, isForced, faults);
        return faults.Count > before
            ? null
            : new Recovered(register, journal.End, [.. journal.Facts.Untold, new Entry.EngineStarted(ProgramVersion.Text), .. imports], keys);
    }
}
