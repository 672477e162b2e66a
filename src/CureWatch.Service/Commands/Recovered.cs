using System.Collections.Immutable;
using CureWatch.Service.Journal;
using CureWatch.Service.Pump;
using CureWatch.Service.Settings;

namespace CureWatch.Service.Commands;

/// <summary>A data folder read to its end, and what the start has to journal: what the settings bring, and what nobody was told yet.</summary>
internal sealed record Recovered(Register Register, JournalEnd End, ImmutableArray<Entry> First)
{
    /// <returns>What was recovered, or null where the folder or the settings cannot be used.</returns>
    public static Recovered? From(DataFolder folder, string config, bool isForced, Faults faults)
    {
        int before = faults.Count;
        if (ConfigurationFolder.Find(config, faults) is not { } files || Configuration.Read(files, faults) is not { } configuration)
        {
            return null;
        }

        var recovery = new Recovery(folder.Journal, new EntryCodec(new KeyStore(folder.Keys)));
        try
        {
            recovery.Run();
        }
        catch (Exception e) when (e is IOException or UnauthorizedAccessException or InvalidDataException)
        {
            faults.Add(folder.Path, "journal", e.Message, "a journal that this program can read");
            return null;
        }

        if (recovery.Damage is { } damage)
        {
            faults.Add(damage.File, $"byte {damage.Offset}", damage.What, "what was written; 'verify' names every damaged file");
            return null;
        }

        ImmutableArray<Entry> imports = Imports.Decide(recovery.Register, files, configuration, isForced, faults);
        return faults.Count > before
            ? null
            : new Recovered(recovery.Register, recovery.End, [.. recovery.Facts.Untold, new Entry.EngineStarted(ProgramVersion.Text), .. imports]);
    }
}
