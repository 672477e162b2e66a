using System.CommandLine;
using CureWatch.Service.Documents;
using CureWatch.Service.Settings;

namespace CureWatch.Service.Commands;

/// <summary><c>check</c>: every fault of a configuration folder, all at once.</summary>
internal static class CheckCommand
{
    public static Command Create()
    {
        Option<string?> config = ConfigOption.Create();
        Option<bool> json = JsonOption.Create();
        var command = new Command("check", "Checks every file of a configuration. Exits 1 where it finds faults.") { config, json };
        command.SetAction(parsed =>
        {
            string directory = parsed.GetValue(config) ?? ConfigurationFolder.Usual;
            var faults = new Faults();
            if (ConfigurationFolder.Find(directory, faults) is not { } folder)
            {
                return Refusal.Of(faults, parsed.InvocationConfiguration.Error);
            }

            Check(folder, faults);
            Answer(directory, folder, faults, parsed.GetValue(json), parsed.InvocationConfiguration.Output);
            return faults.Count > 0 ? ExitCode.AnswerIsNo : ExitCode.Done;
        });
        return command;
    }

    /// <summary>Finds the faults of the files themselves, whatever the journal holds.</summary>
    public static void Check(ConfigurationFolder folder, Faults faults)
    {
        ServiceSettings? service = ServiceFile.Read(folder.Service, ServiceVariable.OfProcess, faults);
        if (Configuration.Read(folder, faults) is { } configuration && service is not null)
        {
            ProbeUsers.Check(service, configuration.Shop.Plan, faults);
        }
    }

    private static void Answer(string directory, ConfigurationFolder folder, Faults faults, bool asJson, TextWriter output)
    {
        if (asJson)
        {
            JsonOutput.WriteDocument(output, json => CheckJson.Write(json, directory, folder, faults));
            return;
        }

        foreach (Fault fault in faults.All)
        {
            output.WriteLine(fault);
        }

        if (faults.Count == 0)
        {
            output.WriteLine($"{directory}: {folder.Files.Count} files, no fault");
        }
    }
}
