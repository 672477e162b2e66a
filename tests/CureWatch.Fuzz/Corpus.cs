using System.Text;
using System.Text.RegularExpressions;

namespace CureWatch.Fuzz;

/// <summary>Writes what a fuzzer begins with: sound inputs, and the words in them.</summary>
internal static partial class Corpus
{
    public static int Write(string name, string folder, string words)
    {
        if (Named.Find(name) is not { } target)
        {
            return Usage.Say();
        }

        Directory.CreateDirectory(folder);
        byte[][] seeds = [.. target.Seeds];
        for (int i = 0; i < seeds.Length; i++)
        {
            File.WriteAllBytes(Path.Combine(folder, $"seed-{i:D3}"), seeds[i]);
        }

        File.WriteAllLines(
            words,
            from word in seeds.SelectMany(WordsIn).Distinct(StringComparer.Ordinal).Order(StringComparer.Ordinal)
            select $"\"{word.Replace("\"", "\\x22", StringComparison.Ordinal)}\"");
        return 0;
    }

    private static IEnumerable<string> WordsIn(byte[] seed) => Word().Matches(Encoding.ASCII.GetString(seed)).Select(m => m.Value);

    [GeneratedRegex("\"[A-Za-z0-9_.:/-]{1,40}\"|[A-Za-z_]{3,40}")]
    private static partial Regex Word();
}
