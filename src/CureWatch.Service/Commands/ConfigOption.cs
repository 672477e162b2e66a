using System.CommandLine;
using CureWatch.Service.Settings;

namespace CureWatch.Service.Commands;

/// <summary>The option that names a configuration folder and may be left out: <see cref="ConfigurationFolder.Usual"/> is meant then.</summary>
internal static class ConfigOption
{
    public static Option<string?> Create() => new("--config")
    {
        Description = "folder with shop.json and products/; config here, else the one beside the program, where left out",
        HelpName = "path",
    };
}
