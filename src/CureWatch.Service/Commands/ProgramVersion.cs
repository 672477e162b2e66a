using System.Reflection;

namespace CureWatch.Service.Commands;

/// <summary>The version of this program.</summary>
internal static class ProgramVersion
{
    public static string Text { get; } =
        typeof(ProgramVersion).Assembly.GetCustomAttribute<AssemblyInformationalVersionAttribute>()?.InformationalVersion ?? "unknown";
}
