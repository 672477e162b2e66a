using System.Collections;
using System.Collections.Immutable;

namespace CureWatch.Service.Settings;

/// <summary>A variable of the environment that stands for a key of <c>curewatch.json</c>, such as <c>CUREWATCH__MQTT__PORT</c>.</summary>
/// <param name="Name">The variable's name as it is set.</param>
/// <param name="Value">Its value.</param>
internal sealed record ServiceVariable(string Name, string Value)
{
    /// <summary>The file that a fault in a variable names.</summary>
    public const string File = "environment";

    private const string Prefix = "CUREWATCH__";
    private const string Separator = "__";

    /// <summary>Every such variable of this process, in a fixed order.</summary>
    public static ImmutableArray<ServiceVariable> OfProcess =>
    [
        .. from DictionaryEntry variable in Environment.GetEnvironmentVariables()
           let name = (string)variable.Key
           where name.StartsWith(Prefix, StringComparison.OrdinalIgnoreCase)
           orderby name
           select new ServiceVariable(name, (string?)variable.Value ?? ""),
    ];

    /// <summary>The keys it names, from the top.</summary>
    public string[] Keys => Name[Prefix.Length..].Split(Separator);

    /// <summary>The name of the variable for a place.</summary>
    public static string NameOf(IEnumerable<string> keys) => Prefix + string.Join(Separator, keys).ToUpperInvariant();
}
