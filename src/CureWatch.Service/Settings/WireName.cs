using System.Runtime.CompilerServices;
using System.Text.Json;

namespace CureWatch.Service.Settings;

/// <summary>How the values of an enum are written outside the program: in lower case, words joined by hyphens.</summary>
/// <remarks>Two rows, since every enum counts from 0 by one: a dictionary of each would be compiled anew for each, at every start.</remarks>
internal static class WireName<T>
    where T : struct, Enum
{
    private static readonly T[] Values = Enum.GetValues<T>();

    private static readonly string[] Names = Array.ConvertAll(Enum.GetNames<T>(), JsonNamingPolicy.KebabCaseLower.ConvertName);

    /// <summary>Every name, in the order of the enum.</summary>
    public static string All { get; } = string.Join(" | ", Names);

    public static string Of(T value) => Names[Unsafe.BitCast<T, int>(value)];

    public static T? Find(string name) => Array.IndexOf(Names, name) is >= 0 and var place ? Values[place] : null;
}
