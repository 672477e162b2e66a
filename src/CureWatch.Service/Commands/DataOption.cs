using System.CommandLine;
using CureWatch.Service.Settings;

namespace CureWatch.Service.Commands;

/// <summary>The option that names a data folder.</summary>
internal static class DataOption
{
    public static Option<string?> Optional() => new("--data")
    {
        Description = $"data folder; what curewatch.json says, else {ServiceFile.UsualFolder} here, where left out",
        HelpName = "path",
    };

    /// <summary>The folder a command works on: the one that is named, else the one a service would take that is started here.</summary>
    /// <param name="named">What <c>--data</c> says.</param>
    /// <param name="config">The configuration folder; one that is not there says nothing.</param>
    /// <param name="faults">Where it is said why not.</param>
    /// <returns>The folder, or null where the service's settings hold a fault: another folder than the one meant is worse than none.</returns>
    public static string? Of(string? named, string config, Faults faults)
    {
        if (named is not null)
        {
            return named;
        }

        ConfigurationFolder? files = ConfigurationFolder.IsAbsent(config) ? null : ConfigurationFolder.Find(config, faults);
        string? folder = faults.Count > 0 ? null : ServiceFile.Read(files?.Service, ServiceVariable.OfProcess, faults)?.DataFolder;
        if (folder is null)
        {
            faults.Add(config, "--data", "nothing", "a data folder, named while the settings that would name it hold a fault");
        }

        return folder;
    }

    /// <summary>The same by the usual configuration folder.</summary>
    public static string? Of(string? named, Faults faults) => Of(named, ConfigurationFolder.Usual, faults);
}
