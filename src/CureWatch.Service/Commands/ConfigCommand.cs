using System.CommandLine;
using CureWatch.Service.Disk;
using CureWatch.Service.Journal;
using CureWatch.Service.Pump;
using CureWatch.Service.Settings;

namespace CureWatch.Service.Commands;

/// <summary><c>config import</c>: takes a configuration folder into a data folder while no service holds it.</summary>
internal static class ConfigCommand
{
    public static Command Create()
    {
        Option<string?> config = ConfigOption.Create();
        Option<string?> data = DataOption.Optional();
        var force = new Option<bool>("--force") { Description = "take the file also where the board has changed the same since" };
        var import = new Command("import", "Takes what is new in a configuration into a data folder.") { config, data, force };
        import.SetAction(parsed =>
        {
            var faults = new Faults();
            string from = parsed.GetValue(config) ?? ConfigurationFolder.Usual;
            if (DataOption.Of(parsed.GetValue(data), from, faults) is not { } into || Import(from, into, parsed.GetValue(force), faults, parsed.InvocationConfiguration.Error) is not { } imported)
            {
                return Refusal.Of(faults, parsed.InvocationConfiguration.Error);
            }

            parsed.InvocationConfiguration.Output.WriteLine($"{imported} settings imported into {into}");
            return ExitCode.Done;
        });
        return new Command("config", "Works on the settings of a data folder.") { import };
    }

    private static int? Import(string config, string data, bool isForced, Faults faults, TextWriter error)
    {
        using DataFolder? folder = DataFolder.Hold(LocalDisk.Instance, data, isDemo: false, faults);
        if (folder is null || Recovered.From(folder, config, isForced, faults, new ReadingProgress(TimeProvider.System, error).Look) is not { } recovered)
        {
            return null;
        }

        using var journal = new JournalWriter(folder.Disk, folder.Journal, new EntryCodec(new KeyStore(folder.Disk, folder.Keys)), recovered.End);
        var draft = new Draft(recovered.Register, journal);
        draft.Append(recovered.First.AsSpan(), TimeProvider.System.GetUtcNow());
        _ = draft.Flush();
        _ = draft.Close();
        return recovered.First.Count(e => e is Entry.SettingsChanged);
    }
}
