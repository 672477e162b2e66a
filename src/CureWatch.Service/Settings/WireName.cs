using System.Text.Json;

namespace CureWatch.Service.Settings;

/// <summary>How the values of an enum are written outside the program: in lower case, words joined by hyphens.</summary>
internal static class WireName<T>
    where T : struct, Enum
{
    private static readonly Dictionary<T, string> Names =
        Enum.GetValues<T>().ToDictionary(v => v, v => JsonNamingPolicy.KebabCaseLower.ConvertName(v.ToString()));

    private static readonly Dictionary<string, T> Values = Names.ToDictionary(n => n.Value, n => n.Key, StringComparer.Ordinal);

    /// <summary>Every name, in the order of the enum.</summary>
    public static string All { get; } = string.Join(" | ", Enum.GetValues<T>().Select(Of));

    public static string Of(T value) => Names[value];

    public static T? Find(string name) => Values.TryGetValue(name, out T value) ? value : null;
}
