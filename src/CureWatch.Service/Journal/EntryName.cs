using System.Globalization;

namespace CureWatch.Service.Journal;

/// <summary>The number of an entry as files are named by it: twenty digits, so that names sort as numbers do.</summary>
internal static class EntryName
{
    private const int Digits = 20;

    /// <summary>How a number is written.</summary>
    public static string Of(long sequence) => sequence.ToString($"D{Digits}", CultureInfo.InvariantCulture);

    /// <summary>Reads the number in a file's name.</summary>
    /// <param name="file">The name, without its folder.</param>
    /// <param name="ending">What follows the number.</param>
    /// <returns>The number; null where the name is another. No journal has an entry of more than 19 digits.</returns>
    public static long? In(string file, string ending) =>
        file.Length == Digits + ending.Length && file.EndsWith(ending, StringComparison.Ordinal)
        && long.TryParse(file.AsSpan(0, Digits), NumberStyles.None, CultureInfo.InvariantCulture, out long sequence)
            ? sequence
            : null;
}
