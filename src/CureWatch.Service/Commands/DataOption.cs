using System.CommandLine;

namespace CureWatch.Service.Commands;

/// <summary>The option that names a data folder.</summary>
internal static class DataOption
{
    /// <summary>The folder where nobody names one.</summary>
    public const string Usual = "data";

    public static Option<string?> Optional() =>
        new("--data") { Description = $"data folder; {Usual} here where left out", HelpName = "path" };
}
